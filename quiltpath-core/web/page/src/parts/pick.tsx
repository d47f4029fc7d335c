// A word that is ringed with the pen where it is chosen.

import type { ComponentChildren } from "preact";

interface Props {
  name: string;
  on: boolean;
  pick: () => void;
  /** A little picture before the word. */
  before?: ComponentChildren;
  children: ComponentChildren;
}

export function Pick({ name, on, pick, before, children }: Props) {
  return (
    <label>
      <input type="radio" name={name} checked={on} onChange={pick} />
      {before}
      <span>{children}</span>
    </label>
  );
}
