#!/usr/bin/env python3
"""Read DXF files with ezdxf, an outside reader, and hold them to what this
project promises of a file for a cutting table.

  check_dxf.py [--expect radius=MM]... [--list LIST.json] [--kit DIR]...
               [--name TEXT] [--facts OUT.json] [FILE.dxf]...

--expect  every FILE must hold a cut arc of this radius
--list    a JSON array of {"file": PATH, "radius": [MM, ...], "outlines": N,
          "holes": N, "units": "mm"|"in"}; all keys but file may be left out
--kit     every .dxf in DIR; job.json there says which radii block*.dxf,
          template-inside.dxf and template-outside.dxf must hold
--name    what some text of every block*.dxf must begin with
--facts   writes what was read, for check_dxf.mjs --against

Every file: readfile and recover with no error and no fix in the audit; header
units consistent; only the kinds of entity of its version, on declared layers;
contours closed; no text on what is cut; lower left of what is cut at 0,0, or on part.dxf
and fixture.dxf their datum; the size note true. One line a file; exit status 1 on any fault, and when the
reader is not there.
"""
import argparse, glob, json, math, os, re, sys

try:
    import ezdxf
    from ezdxf import recover
    from ezdxf.lldxf.encoding import decode_dxf_unicode
except ImportError as e:
    sys.exit(f"check_dxf.py: {e}; install python3-ezdxf")

CUT = {"OUTLINE", "HOLES", "0"}
KINDS = {
    "AC1009": {"POLYLINE", "LINE", "ARC", "CIRCLE", "TEXT"},
    "AC1015": {"LWPOLYLINE", "CIRCLE", "TEXT"},
}
RADIUS_TOLERANCE = 1e-4  # mm
CORNER_TOLERANCE = 5e-6  # mm: a few roundings to 6 decimals
KERF = 6.5  # mm, the widest that a job may state without a hole of its own
JOIN_TOLERANCE = 1e-6  # mm


class Fault(Exception):
    pass


def must(ok, text):
    if not ok:
        raise Fault(text)


def audited(doc, auditor, how):
    must(not auditor.errors, f"{how}: {[e.message for e in auditor.errors]}")
    must(not auditor.fixes, f"{how} fixed: {[e.message for e in auditor.fixes]}")


def pieces_of(e):
    """A polyline as the lines and arcs that ezdxf makes of it."""
    return list(e.virtual_entities()) if e.dxftype() in ("LWPOLYLINE", "POLYLINE") else [e]


def ends(e):
    if e.dxftype() == "LINE":
        return [(e.dxf.start.x, e.dxf.start.y), (e.dxf.end.x, e.dxf.end.y)]
    return [(e.start_point.x, e.start_point.y), (e.end_point.x, e.end_point.y)]


def extremes(e):
    """Points that span the exact bounding box of a line, arc or circle."""
    kind = e.dxftype()
    if kind == "LINE":
        return ends(e)
    c, r = e.dxf.center, e.dxf.radius
    quarters = range(4)
    points = []
    if kind == "ARC":
        points = ends(e)
        sweep = (e.dxf.end_angle - e.dxf.start_angle) % 360
        quarters = [q for q in range(4) if (90 * q - e.dxf.start_angle) % 360 <= sweep]
    axis = [(1, 0), (0, 1), (-1, 0), (0, -1)]
    return points + [(c.x + r * axis[q][0], c.y + r * axis[q][1]) for q in quarters]


def loops(pieces, gap):
    """How many closed contours separate pieces make up; every end must meet
    exactly one other."""
    at = [(p, i) for i, e in enumerate(pieces) for p in ends(e)]
    links = {i: [] for i in range(len(pieces))}
    for k, (p, i) in enumerate(at):
        met = [j for m, (q, j) in enumerate(at) if m != k and math.dist(p, q) <= gap]
        must(len(met) == 1, f"{len(met)} ends meet the one at {p[0]:.6f}, {p[1]:.6f}")
        links[i].append(met[0])
    count, left = 0, set(links)
    while left:
        count += 1
        todo = [left.pop()]
        while todo:
            for j in links[todo.pop()]:
                if j in left:
                    left.remove(j)
                    todo.append(j)
    return count


def read(path, only_cut=False):
    """Checks one file and returns the facts; one of --cut-only holds nothing else."""
    doc = ezdxf.readfile(path)
    audited(doc, doc.audit(), "audit")
    audited(*recover.readfile(path), "recover")

    version = doc.dxfversion
    must(version in KINDS, f"version {version}")
    units = (doc.header.get("$INSUNITS"), doc.header.get("$MEASUREMENT"))
    must(units in ((4, 1), (1, 0)), f"$INSUNITS, $MEASUREMENT are {units}")
    unit = 1.0 if units == (4, 1) else 25.4

    declared = {l.dxf.name for l in doc.layers}
    entities = list(doc.modelspace())
    must(entities, "no entity")
    kinds, loose, radii = {}, {}, []
    closed = {name: 0 for name in CUT}
    box = []
    cut_kinds = {}
    note = None
    texts = []
    for e in entities:
        kind, layer = e.dxftype(), e.dxf.layer
        must(kind in KINDS[version], f"entity {kind}")
        must(layer in declared, f"layer {layer!r} is not declared")
        kinds[kind] = kinds.get(kind, 0) + 1
        if kind == "TEXT":
            must(layer not in CUT, f"text {e.dxf.text!r} on layer {layer}")
            texts.append(decode_dxf_unicode(e.dxf.text))
            note = re.fullmatch(r"UNITS (MM|INCH)  SIZE ([0-9.]+) x ([0-9.]+)", e.dxf.text) or note
            continue
        if layer not in CUT:
            continue
        cut_kinds[kind] = cut_kinds.get(kind, 0) + 1
        parts = pieces_of(e)
        for p in parts:
            box += extremes(p)
            if p.dxftype() in ("ARC", "CIRCLE"):
                radii.append(p.dxf.radius * unit)
        if kind == "CIRCLE":
            closed[layer] += 1
        elif kind in ("LWPOLYLINE", "POLYLINE"):
            must(e.closed if kind == "LWPOLYLINE" else e.is_closed, f"open {kind} on layer {layer}")
            # What ezdxf makes of it must close up too.
            must(loops(parts, 1e-6) == 1, f"{kind} on layer {layer} is not one contour")
            closed[layer] += 1
        else:
            loose.setdefault(layer, []).append(e)
    for layer, pieces in loose.items():
        closed[layer] += loops(pieces, JOIN_TOLERANCE / unit)

    must(box, "nothing to cut")
    low = [unit * min(p[i] for p in box) for i in (0, 1)]
    size = [unit * max(p[i] for p in box) - low[i] for i in (0, 1)]
    name = os.path.basename(path)
    nest = name.startswith("nest")
    if nest:
        # A plate's own corner is the origin, its size the note's: parts keep
        # their edge from both.
        must(min(low) >= -CORNER_TOLERANCE, f"cut below the plate's corner, at {low}")
    elif name == "part.dxf":
        # The part's datum is the origin: a corner of its outline.
        must(unit * min(math.hypot(*p[:2]) for p in box) <= CORNER_TOLERANCE, "no corner at the part's datum")
    elif name == "fixture.dxf":
        # The true plate's corner is the origin: a kerf's half lies below it.
        must(abs(low[0] - low[1]) <= CORNER_TOLERANCE and -KERF / 2 <= low[0] <= CORNER_TOLERANCE, f"lower left of the plate at {low}")
    else:
        must(max(map(abs, low)) <= CORNER_TOLERANCE, f"lower left of what is cut at {low}")
    must(not closed["0"], "contours on layer 0")
    if only_cut:
        must({e.dxf.layer for e in entities} <= {"OUTLINE", "HOLES"}, "more than what is cut")
        must(closed["OUTLINE"], "no outline")
    else:
        must(closed["OUTLINE"], "no outline")
        must(note, "no note of unit and size")
        must((note[1] == "MM") == (unit == 1.0), f"note says {note[1]}")
        half = 0.5 * 10.0 ** -len(note[2].split(".")[1]) + 1e-6
        over = [float(note[i + 2]) - (low[i] * nest + size[i]) / unit for i in (0, 1)]
        short = {"nest": math.inf, "fixture.dxf": KERF / unit}.get("nest" if nest else name, 0)  # the note's is the true plate
        must(all(-half - (0 if nest else short) <= o <= (short if nest else 0) + half for o in over), f"note says {note[2]} x {note[3]}")
    return {
        "version": version, "unit": unit, "kinds": kinds, "cut_kinds": cut_kinds, "size": size,
        "radii": sorted(radii), "outlines": closed["OUTLINE"], "holes": closed["HOLES"],
        "texts": texts,
    }


def has(radii, want):
    return any(abs(r - want) <= RADIUS_TOLERANCE for r in radii)


def compare(facts, want):
    for r in want.get("radius", []):
        must(has(facts["radii"], r), f"no arc of radius {r}; there are {[round(x, 4) for x in facts['radii']]}")
    for key in ("outlines", "holes"):
        if key in want:
            must(facts[key] == want[key], f"{facts[key]} {key}, want {want[key]}")
    if "units" in want:
        must(facts["unit"] == {"mm": 1.0, "in": 25.4}[want["units"]], f"not in {want['units']}")


def kit(directory):
    """The expectations of a kit, from its job.json."""
    with open(os.path.join(directory, "job.json"), encoding="utf-8") as f:
        job = json.load(f)
    want = []
    for path in sorted(glob.glob(os.path.join(directory, "*.dxf"))):
        name, row = os.path.basename(path), {"file": path}
        if name == "block.dxf":
            row["radius"] = [job["block"]["radius_mm"]]
        elif name == "template-inside.dxf":
            row["radius"] = [job["bend"]["inside_radius_mm"]]
        elif name == "template-outside.dxf":
            row["radius"] = [job["bend"]["outside_radius_mm"]]
        want.append(row)
    must(any(os.path.basename(w["file"]) == "block.dxf" for w in want), f"no block.dxf in {directory}")
    # A grooved block for round tube has a radius for each layer, shared out
    # over block*.dxf.
    return want, job["block"].get("layer_radii_mm", [])


def main():
    p = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    p.add_argument("--expect", action="append", default=[], metavar="radius=MM")
    p.add_argument("--list", metavar="LIST.json")
    p.add_argument("--kit", action="append", default=[], metavar="DIR")
    p.add_argument("--cut-only", action="store_true", help="the files hold only what is cut")
    p.add_argument("--facts", metavar="OUT.json")
    p.add_argument("--name", default="")
    p.add_argument("files", nargs="*", metavar="FILE.dxf")
    args = p.parse_args()

    expected = []
    for e in args.expect:
        key, _, v = e.partition("=")
        if key != "radius":
            p.error(f"--expect {e}: only radius=MM is known")
        expected.append(float(v))
    rows = [{"file": f, "radius": expected} for f in args.files]
    if args.list:
        with open(args.list, encoding="utf-8") as f:
            rows += json.load(f)
    faults, layered = [], []
    for d in args.kit:
        try:
            more, layers = kit(d)
            rows += more
            layered.append((d, layers))
        except (Fault, OSError, KeyError, ValueError) as e:
            faults.append(f"{d}: {e!r}")
    if not rows and not faults:
        p.error("no file to check")

    facts = {}
    for row in rows:
        path = row["file"]
        try:
            facts[path] = f = read(path, args.cut_only)
            compare(f, row)
            if args.name and os.path.basename(path).startswith("block"):
                must(any(t.startswith(args.name) for t in f["texts"]), f"no text begins with {args.name!r}: {f['texts']}")
        except Exception as e:  # a reader's own exceptions are faults of the file
            faults.append(f"{path}: {e if isinstance(e, Fault) else repr(e)}")
            continue
        print(f"{path}: {f['version']} {'mm' if f['unit'] == 1 else 'in'}, {f['size'][0]:.3f} x {f['size'][1]:.3f} mm, "
              f"{f['outlines']} outlines, {f['holes']} holes, "
              f"R {' '.join(sorted({format(r, '.4f') for r in f['radii']}, key=float)) or 'none'}: ok")
    for d, layers in layered:
        radii = [r for path, f in facts.items()
                 if os.path.dirname(path) == d.rstrip("/") and os.path.basename(path).startswith("block") for r in f["radii"]]
        for want in layers:
            if not has(radii, want):
                faults.append(f"{d}: no block*.dxf has the layer radius {want}")
    if args.facts:
        with open(args.facts, "w", encoding="utf-8") as out:
            json.dump(facts, out, indent=1)
    for f in faults:
        print(f"FAULT {f}")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
