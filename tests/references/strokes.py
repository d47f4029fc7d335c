"""Drawings that others made, as one line: the table in the guide's chapter on strokes.

    python3 tests/references/strokes.py target/release/quiltpath FOLDER

Fetches, with npm and pip, sets of five kinds into FOLDER and takes 100 drawings of each at random
(the same ones each time; all of a set that has fewer). The drawings aren't ours and aren't kept:
FOLDER is to lie outside the project. All licences are free ones:

    icons       feather-icons (MIT), @tabler/icons (MIT): drawn with strokes
    letters     Hershey-Fonts (MIT): letters and signs of stroke fonts, from the public domain
    maps        us-atlas (ISC): states with their counties; world-atlas (ISC): countries with those
                that they border on, without what lies far away. Each outline is closed, so borders
                are drawn twice; 10 in wide or high, of data from the public domain
    diagrams    schemdraw (MIT): signs for circuits, logic, signals and flow charts, as they come
    ornaments   hero-patterns (MIT): one repeat of a pattern, of filled shapes

Prints for each set what was refused and why, what took longest, and its row of the table. The
shares are those of the drawings that had to be made one line; one that is a single line already
has nothing stitched twice, and is counted apart.
"""

import collections
import inspect
import json
import math
import pathlib
import random
import re
import resource
import signal
import subprocess
import sys
import urllib.parse

NPM = "feather-icons @tabler/icons us-atlas world-atlas hero-patterns".split()
PIP = "Hershey-Fonts schemdraw".split()

FONTS = """cursive futural futuram greek mathlow music scripts markers meteorology rowmans symbolic
timesr""".split()

# Of processor time, so that what else the machine does is no matter.
LIMIT_SECONDS = 20

SVG = '<svg xmlns="http://www.w3.org/2000/svg" '


def fetched(folder):
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "package.json").write_text("{}")
    npm = ["npm", "install", "--no-audit", "--no-fund", "--ignore-scripts", *NPM]
    subprocess.run(npm, cwd=folder, check=True, stdout=subprocess.DEVNULL)
    pip = [sys.executable, "-m", "pip", "install", "--quiet", "--upgrade"]
    subprocess.run([*pip, "--target", str(folder / "python"), *PIP], check=True)
    sys.path.insert(0, str(folder / "python"))


def written(folder, drawings):
    """The files of drawings, each a name and a text; those that are there already are replaced."""
    folder.mkdir(exist_ok=True)
    for old in folder.glob("*.svg"):
        old.unlink()
    for name, text in drawings:
        (folder / f"{name}.svg").write_text(text)
    return sorted(folder.glob("*.svg"))


def letters():
    from HersheyFonts import HersheyFonts

    for font in FONTS:
        hershey = HersheyFonts()
        hershey.load_default_font(font)
        for code in range(33, 127):
            strokes = [list(stroke) for stroke in hershey.strokes_for_text(chr(code))]
            strokes = [stroke for stroke in strokes if len(stroke) > 1]
            if not strokes:
                continue
            data = "".join("M" + "L".join(f"{x} {y}" for x, y in stroke) for stroke in strokes)
            x, y = ([place[axis] for stroke in strokes for place in stroke] for axis in (0, 1))
            box = f"{min(x)} {min(y)} {max(x) - min(x) + 1} {max(y) - min(y) + 1}"
            path = f'<path d="{data}" fill="none" stroke="black"/>'
            yield f"{font}-{code}", f'{SVG}viewBox="{box}">{path}</svg>'


class Atlas:
    """A TopoJSON file: arcs of whole steps, and rings that name them, ~i being i backwards."""

    def __init__(self, path):
        topology = json.loads(path.read_text())
        self.objects = topology["objects"]
        scale, shift = (topology["transform"][key] for key in ("scale", "translate"))
        self.arcs = []
        for arc in topology["arcs"]:
            x = y = 0
            places = []
            for step in arc:
                x, y = x + step[0], y + step[1]
                places.append((x * scale[0] + shift[0], y * scale[1] + shift[1]))
            self.arcs.append(places)

    @staticmethod
    def rings(shape):
        polygons = shape.get("arcs", [])
        polygons = [polygons] if shape.get("type") == "Polygon" else polygons
        return [ring for polygon in polygons for ring in polygon]

    def outlines(self, shape):
        for ring in self.rings(shape):
            places = []
            for arc in ring:
                way = self.arcs[arc] if arc >= 0 else self.arcs[~arc][::-1]
                places += way[1:] if places else way
            yield places


def map_of(regions):
    """A drawing of regions, each a list of rings, 10 in wide or high."""
    places = [place for rings in regions for ring in rings for place in ring]
    (left, right), (top, bottom) = ((min(axis), max(axis)) for axis in zip(*places))
    size = 10 / max(right - left, bottom - top)
    width, height = (right - left) * size, (bottom - top) * size
    paths = []
    for rings in regions:
        data = ""
        for ring in rings:
            spots = (f"{(x - left) * size:.5f} {(y - top) * size:.5f}" for x, y in ring[:-1])
            data += "M" + "L".join(spots) + "Z"
        paths.append(f'<path d="{data}" fill="none" stroke="black" stroke-width="0.02"/>')
    box = f'width="{width}in" height="{height}in" viewBox="0 0 {width} {height}"'
    return f"{SVG}{box}>{''.join(paths)}</svg>"


def maps(modules):
    atlas = Atlas(modules / "us-atlas/counties-albers-10m.json")
    counties = collections.defaultdict(list)
    for shape in atlas.objects["counties"]["geometries"]:
        counties[shape["id"][:2]].append(list(atlas.outlines(shape)))
    for state, regions in counties.items():
        yield f"state-{state}", map_of(regions)

    atlas = Atlas(modules / "world-atlas/countries-50m.json")
    countries = [shape for shape in atlas.objects["countries"]["geometries"] if "arcs" in shape]
    at = collections.defaultdict(set)
    for index, shape in enumerate(countries):
        for arc in (arc for ring in atlas.rings(shape) for arc in ring):
            at[max(arc, ~arc)].add(index)
    for index, shape in enumerate(countries):
        near = set().union(*(sharing for sharing in at.values() if index in sharing))
        if len(near) < 2:
            continue
        main = max(atlas.outlines(shape), key=len)
        reach = [(1.5 * min(axis) - 0.5 * max(axis), 1.5 * max(axis) - 0.5 * min(axis))
                 for axis in zip(*main)]

        def is_near(ring):
            inside = lambda place: all(a <= at <= b for at, (a, b) in zip(place, reach))
            return any(map(inside, ring))

        narrow = math.cos(math.radians(sum(y for _, y in main) / len(main)))
        regions = [
            [[(x * narrow, -y) for x, y in ring]
             for ring in filter(is_near, atlas.outlines(countries[other]))]
            for other in sorted(near)
        ]
        yield f"country-{shape.get('id', 'x')}-{index}", map_of(regions)


def diagrams():
    import schemdraw
    from schemdraw import dsp, elements, flow, logic, pictorial

    schemdraw.use("svg")
    seen = set()
    for module in (elements, logic, dsp, flow, pictorial):
        for name, kind in inspect.getmembers(module, inspect.isclass):
            if not issubclass(kind, elements.Element):
                continue
            try:
                drawing = schemdraw.Drawing(show=False)
                drawing.add(kind())
                text = drawing.get_imagedata("svg").decode()
            except Exception:  # It wants something to be told, as a label or a size.
                continue
            if re.search("<(path|line|polyline|polygon|circle|ellipse|rect)", text):
                if text not in seen:
                    yield f"{module.__name__.split('.')[1]}-{name}", text
                seen.add(text)


def ornaments(modules):
    script = """const made = require(process.argv[1]);
        const names = Object.keys(made).filter(name => typeof made[name] == 'function');
        console.log(JSON.stringify(names.map(name => [name, made[name]('#000', 1)])))"""
    node = ["node", "-e", script, str((modules / "hero-patterns").resolve())]
    made = json.loads(subprocess.run(node, check=True, capture_output=True, text=True).stdout)
    for name, url in made:
        yield name, urllib.parse.unquote(re.fullmatch(r"url\('data:[^,]*,(.*)'\)", url)[1])


def measured(command, drawing):
    def limited():
        resource.setrlimit(resource.RLIMIT_CPU, (LIMIT_SECONDS, LIMIT_SECONDS + 1))

    def spent():
        usage = resource.getrusage(resource.RUSAGE_CHILDREN)
        return usage.ru_utime + usage.ru_stime

    start = spent()
    asked = [command, "measure", str(drawing), "--json"]
    run = subprocess.run(asked, capture_output=True, text=True, preexec_fn=limited)
    took = spent() - start
    if run.returncode == -signal.SIGXCPU:
        return {"refused": f"takes more than {LIMIT_SECONDS} s", "took": took}
    if run.returncode != 0:
        lines = [line for line in run.stderr.strip().splitlines() if line]
        reason = next((line for line in lines if "error" in line), lines[-1])
        return {"refused": reason.replace(str(drawing), "FILE"), "took": took}
    return {"strokes": json.loads(run.stdout).get("strokes"), "took": took}


def share(values, at):
    values = sorted(values)
    return values[min(int(at * len(values)), len(values) - 1)] if values else 0.0


def report(kind, name, drawings, command):
    random.seed(name)
    tried = random.sample(drawings, min(100, len(drawings)))
    found = [(drawing, measured(command, drawing)) for drawing in tried]
    print(f"{kind}: {name}, {len(tried)} of {len(drawings)} drawings", file=sys.stderr)
    reasons = collections.defaultdict(list)
    for drawing, facts in found:
        if "refused" in facts:
            # Numbers and names in quotes differ from drawing to drawing; the reason doesn't.
            same = re.sub(r"\d+(\.\d+)?|\"[^\"]*\"|'[^']*'", "…", facts["refused"])
            reasons[same].append((drawing.name, facts["refused"]))
    for refused in reasons.values():
        names = ", ".join(drawing for drawing, _ in refused[:2])
        print(f"  {len(refused)} refused, as {names}: {refused[0][1]}", file=sys.stderr)
    drawing, slowest = max(found, key=lambda one: one[1]["took"])
    print(f"  slowest: {drawing.name}, {slowest['took']:.1f} s", file=sys.stderr)
    lines = [facts["strokes"] for _, facts in found if "refused" not in facts]
    made = [strokes for strokes in lines if strokes]
    twice = [strokes["retraced_share"] for strokes in made]
    linked = [strokes["linked"] / strokes["drawn"] for strokes in made]
    numbers = [share(of, at) for of in (twice, linked) for at in (0.5, 0.9)]
    shares = " | ".join(f"{100 * number:.0f} %" for number in numbers)
    least = f"{sum(strokes['is_least'] for strokes in made)} of {len(made)}"
    counts = f"{len(tried)} | {len(lines)} | {len(lines) - len(made)}"
    print(f"| {kind} | {name} | {counts} | {shares} | {least} |", flush=True)


def main():
    command, folder = sys.argv[1], pathlib.Path(sys.argv[2])
    fetched(folder)
    modules = folder / "node_modules"
    feather = sorted((modules / "feather-icons/dist/icons").glob("*.svg"))
    tabler = sorted((modules / "@tabler/icons/icons/outline").glob("*.svg"))
    print("| kind | drawings | tried | one line | one line as drawn | stitched twice: middle "
          "| worst tenth | linked: middle | worst tenth | proven least |")
    print("| --- | --- |" + " ---: |" * 8)
    for kind, name, drawings in [
        ("icons", "feather-icons", feather),
        ("icons", "@tabler/icons, outline", tabler),
        ("letters and signs", "Hershey-Fonts", written(folder / "letters", letters())),
        ("maps", "us-atlas, world-atlas", written(folder / "maps", maps(modules))),
        ("diagrams", "schemdraw", written(folder / "diagrams", diagrams())),
        ("ornaments", "hero-patterns", written(folder / "ornaments", ornaments(modules))),
    ]:
        report(kind, name, drawings, command)


main()
