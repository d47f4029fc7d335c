// Unpacks LZMA: a dictionary of what came before and a coder of bits by their chances, after the
// format's public specification. It packs the module a quarter smaller than gzip does.

/** Bits of a chance, and how fast it follows what is seen. */
const CHANCE = 11;
const PACE = 5;
const EVEN = 1 << (CHANCE - 1);

const STATES = 12;
const NEAR_BITS = 4;
const DISTANCE_MODELS = 14;

/** Unpacks a file of the format LZMA whose length stands in its head; nothing of it is checked but
 * that, since it is part of the page. */
export function unlzma(packed: Uint8Array): Uint8Array<ArrayBuffer> {
  const head = new DataView(packed.buffer, packed.byteOffset);
  const settings = packed[0]!;
  const lc = settings % 9;
  const lp = Math.floor(settings / 9) % 5;
  const pb = Math.floor(settings / 45);
  const out = new Uint8Array(head.getUint32(5, true));
  const chances = (count: number) => new Uint16Array(count).fill(EVEN);

  let at = 18;
  // Numbers of 32 bits outside an array would each be a thing of its own.
  const coder = Uint32Array.of(0xffffffff, head.getUint32(14));

  const bit = (model: Uint16Array, index: number): number => {
    const chance = model[index]!;
    let range = coder[0]!;
    let code = coder[1]!;
    const bound = Math.imul(range >>> CHANCE, chance) >>> 0;
    let found = 0;
    if (code < bound) {
      range = bound;
      model[index] = chance + (((1 << CHANCE) - chance) >> PACE);
    } else {
      range -= bound;
      code -= bound;
      model[index] = chance - (chance >> PACE);
      found = 1;
    }
    if (range < 0x1000000) {
      range <<= 8;
      code = (code << 8) | packed[at++]!;
    }
    coder[0] = range;
    coder[1] = code;
    return found;
  };
  const tree = (model: Uint16Array, from: number, bits: number): number => {
    let index = 1;
    for (let count = bits; count > 0; count -= 1) index = (index << 1) | bit(model, from + index);
    return index - (1 << bits);
  };
  const backwards = (model: Uint16Array, from: number, bits: number): number => {
    let [index, value] = [1, 0];
    for (let count = 0; count < bits; count += 1) {
      const next = bit(model, from + index);
      index = (index << 1) | next;
      value |= next << count;
    }
    return value;
  };
  const evenly = (bits: number): number => {
    let value = 0;
    for (let count = bits; count > 0; count -= 1) {
      const range = (coder[0]! >>>= 1);
      const next = coder[1]! >= range ? 1 : 0;
      if (next) coder[1]! -= range;
      value = (value << 1) | next;
      if (range < 0x1000000) {
        coder[0] = range << 8;
        coder[1] = (coder[1]! << 8) | packed[at++]!;
      }
    }
    return value;
  };
  const lengths = () => {
    const which = chances(2);
    const [low, middle, high] = [chances(16 << 3), chances(16 << 3), chances(256)];
    return (place: number) => {
      if (!bit(which, 0)) return tree(low, place << 3, 3);
      if (!bit(which, 1)) return 8 + tree(middle, place << 3, 3);
      return 16 + tree(high, 0, 8);
    };
  };

  const literals = chances(0x300 << (lc + lp));
  const isMatch = chances(STATES << NEAR_BITS);
  const isAgain = chances(STATES);
  const isAgain0 = chances(STATES);
  const isAgain0Long = chances(STATES << NEAR_BITS);
  const isAgain1 = chances(STATES);
  const isAgain2 = chances(STATES);
  const slots = chances(4 << 6);
  const places = chances(1 + 128 - DISTANCE_MODELS + 13);
  const aligned = chances(16);
  const [matchLength, againLength] = [lengths(), lengths()];

  let state = 0;
  let [d0, d1, d2, d3] = [0, 0, 0, 0];
  let end = 0;
  while (end < out.length) {
    const place = end & ((1 << pb) - 1);
    if (!bit(isMatch, (state << NEAR_BITS) + place)) {
      const before = end > 0 ? out[end - 1]! : 0;
      const from = 0x300 * (((end & ((1 << lp) - 1)) << lc) + (before >> (8 - lc)));
      let index = 1;
      if (state >= 7) {
        let like = out[end - d0 - 1]!;
        while (index < 0x100) {
          const own = (like >> 7) & 1;
          like <<= 1;
          const next = bit(literals, from + ((1 + own) << 8) + index);
          index = (index << 1) | next;
          if (own !== next) break;
        }
      }
      while (index < 0x100) index = (index << 1) | bit(literals, from + index);
      out[end++] = index;
      state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
      continue;
    }
    let length: number;
    if (bit(isAgain, state)) {
      if (!bit(isAgain0, state)) {
        if (!bit(isAgain0Long, (state << NEAR_BITS) + place)) {
          state = state < 7 ? 9 : 11;
          out[end] = out[end - d0 - 1]!;
          end += 1;
          continue;
        }
      } else {
        let again = d1;
        if (bit(isAgain1, state)) {
          again = d2;
          if (bit(isAgain2, state)) {
            again = d3;
            d3 = d2;
          }
          d2 = d1;
        }
        d1 = d0;
        d0 = again;
      }
      length = againLength(place);
      state = state < 7 ? 8 : 11;
    } else {
      [d3, d2, d1] = [d2, d1, d0];
      length = matchLength(place);
      state = state < 7 ? 7 : 10;
      const slot = tree(slots, Math.min(length, 3) << 6, 6);
      d0 = slot;
      if (slot >= 4) {
        const bits = (slot >> 1) - 1;
        d0 = (2 | (slot & 1)) << bits;
        if (slot < DISTANCE_MODELS) d0 += backwards(places, d0 - slot, bits);
        else d0 += (evenly(bits - 4) << 4) + backwards(aligned, 0, 4);
      }
    }
    for (let left = Math.min(length + 2, out.length - end); left > 0; left -= 1) {
      out[end] = out[end - d0 - 1]!;
      end += 1;
    }
  }
  return out;
}
