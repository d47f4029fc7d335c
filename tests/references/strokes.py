"""Drawings that others made, as one line: the table in the guide's chapter on strokes.

    python3 tests/references/strokes.py target/release/quiltpath FOLDER

Fetches, with npm and pip, four sets of three kinds into FOLDER, takes 100 drawings of each at random (always
the same ones), and prints a row for each set. The drawings are not ours and are not kept here:

    feather-icons (MIT), @tabler/icons (MIT): icons drawn with strokes
    Hershey-Fonts (MIT): letters and signs of stroke fonts, from the public domain
    @svg-maps/* (CC BY 4.0): outlines of countries and their parts
"""

import json
import pathlib
import random
import subprocess
import sys
import time

MAPS = """algeria argentina australia austria belgium brazil canada chile china colombia croatia czech-republic
denmark egypt estonia finland france.departments france.regions germany greece hungary india indonesia ireland
israel italy japan kenya luxembourg malaysia mexico morocco netherlands new-zealand nigeria norway pakistan peru
philippines poland portugal romania russia serbia singapore slovakia slovenia south-africa south-korea spain
spain.provinces sweden switzerland taiwan thailand turkey uk ukraine usa vietnam world""".split()

FONTS = "cursive futural futuram greek mathlow music scripts markers meteorology rowmans symbolic timesr".split()

LIMIT_SECONDS = 60


def fetched(folder):
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "package.json").write_text("{}")
    npm = ["npm", "install", "--no-audit", "--no-fund", "--ignore-scripts"]
    subprocess.run(npm + ["feather-icons", "@tabler/icons"], cwd=folder, check=True, stdout=subprocess.DEVNULL)
    for name in MAPS:
        # Some maps have other names from time to time; what is not there is passed over.
        quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
        subprocess.run(npm + [f"@svg-maps/{name}"], cwd=folder, **quiet)
    pip = [sys.executable, "-m", "pip", "install", "--quiet", "--target", str(folder / "python"), "Hershey-Fonts"]
    subprocess.run(pip, check=True)


def letters(folder):
    sys.path.insert(0, str(folder / "python"))
    from HersheyFonts import HersheyFonts

    out = folder / "letters"
    out.mkdir(exist_ok=True)
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
            text = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}"><path d="{data}" fill="none" stroke="black"/></svg>'
            (out / f"{font}-{code}.svg").write_text(text)
    return sorted(out.glob("*.svg"))


def measured(command, drawing):
    start = time.time()
    try:
        run = subprocess.run(
            [command, "measure", str(drawing), "--json"], capture_output=True, text=True, timeout=LIMIT_SECONDS
        )
    except subprocess.TimeoutExpired:
        return {"refused": "takes too long"}
    took = time.time() - start
    if run.returncode != 0:
        return {"refused": run.stderr.strip().splitlines()[-1]}
    facts = json.loads(run.stdout)
    strokes = facts.get("strokes") or {"retraced_share": 0.0, "linked": 0.0, "drawn": facts["length"], "is_least": True}
    return {**strokes, "took": took}


def share(values, at):
    values = sorted(values)
    return values[min(int(at * len(values)), len(values) - 1)] if values else 0.0


def main():
    command, folder = sys.argv[1], pathlib.Path(sys.argv[2])
    fetched(folder)
    modules = folder / "node_modules"
    sets = {
        "icons (feather-icons)": sorted((modules / "feather-icons/dist/icons").glob("*.svg")),
        "icons (@tabler/icons, outline)": sorted((modules / "@tabler/icons/icons/outline").glob("*.svg")),
        "letters and signs (Hershey-Fonts)": letters(folder),
        "maps (@svg-maps)": sorted((modules / "@svg-maps").glob("*/*.svg")),
    }
    print("| drawings | tried | one line | stitched twice: middle | worst tenth | linked: middle | worst tenth | proven least |")
    print("| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |")
    for name, drawings in sets.items():
        random.seed(name)
        tried = random.sample(drawings, min(100, len(drawings)))
        found = [(drawing, measured(command, drawing)) for drawing in tried]
        for drawing, facts in found:
            if "refused" in facts or facts["took"] > 5:
                print(f"{drawing}: {facts.get('refused', facts.get('took'))}", file=sys.stderr)
        lines = [facts for _, facts in found if "refused" not in facts]
        twice = [facts["retraced_share"] for facts in lines]
        linked = [facts["linked"] / facts["drawn"] for facts in lines]
        least = sum(facts["is_least"] for facts in lines)
        numbers = [share(of, at) for of in (twice, linked) for at in (0.5, 0.9)]
        row = " | ".join(f"{100 * number:.0f} %" for number in numbers)
        print(f"| {name} | {len(tried)} | {len(lines)} | {row} | {least} |", flush=True)


main()
