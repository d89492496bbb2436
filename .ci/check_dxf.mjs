// Read DXF files with dxf-parser, a second outside reader, and hold them to
// what the first one read.
//
//   NODE_PATH=DIR/node_modules node check_dxf.mjs --against FACTS.json [FILE.dxf]...
//
// FACTS.json is what check_dxf.py --facts wrote: the files to read, and for
// each the count of every kind of entity, the unit and the radii of what is
// cut. FILE.dxf narrows that to the files named. Every contour must be closed,
// and every bulge must give a radius that the other reader found.
// One line a file; exit status 1 on any fault, and when the reader is not there.
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";

function die(text) {
  console.error(`check_dxf.mjs: ${text}`);
  process.exit(1);
}

let DxfParser;
try {
  // require, unlike import, heeds NODE_PATH.
  const m = createRequire(import.meta.url)("dxf-parser");
  DxfParser = m.default ?? m;
} catch (e) {
  die(`${e.message.split("\n")[0]}; install dxf-parser and set NODE_PATH`);
}

const args = process.argv.slice(2);
if (args[0] !== "--against" || args.length < 2) die("usage: check_dxf.mjs --against FACTS.json [FILE.dxf]...");
const facts = JSON.parse(readFileSync(args[1], "utf8"));
const files = args.length > 2 ? args.slice(2) : Object.keys(facts);
if (files.length === 0) die("no file to check");

const cut = new Set(["OUTLINE", "HOLES", "0"]);
const radiusTolerance = 1e-4; // mm

function must(ok, text) {
  if (!ok) throw new Error(text);
}

// radiiOf returns the radii of a polyline's arcs: r = c (1 + b²) / (4 |b|).
function radiiOf(e) {
  const out = [];
  e.vertices.forEach((v, i) => {
    if (!v.bulge) return;
    const w = e.vertices[(i + 1) % e.vertices.length];
    const c = Math.hypot(w.x - v.x, w.y - v.y);
    out.push((c * (1 + v.bulge * v.bulge)) / (4 * Math.abs(v.bulge)));
  });
  return out;
}

// ends returns the end points of a line or arc.
function ends(e) {
  if (e.type === "LINE") return e.vertices.map((v) => [v.x, v.y]);
  // dxf-parser gives angles in radians.
  return [e.startAngle, e.endAngle].map((a) => [e.center.x + e.radius * Math.cos(a), e.center.y + e.radius * Math.sin(a)]);
}

function check(file, want) {
  must(want, "not in the facts of the first reader");
  const dxf = new DxfParser().parseSync(readFileSync(file, "utf8"));
  must(dxf, "nothing read");
  must(dxf.header.$ACADVER === want.version, `version ${dxf.header.$ACADVER}`);
  const unit = { "4 1": 1, "1 0": 25.4 }[`${dxf.header.$INSUNITS} ${dxf.header.$MEASUREMENT}`];
  must(unit === want.unit, `$INSUNITS ${dxf.header.$INSUNITS}, $MEASUREMENT ${dxf.header.$MEASUREMENT}`);

  const layers = dxf.tables.layer.layers;
  const kinds = {};
  const radii = [];
  const open = [];
  for (const e of dxf.entities) {
    kinds[e.type] = (kinds[e.type] ?? 0) + 1;
    must(e.layer in layers, `layer ${e.layer} is not declared`);
    if (!cut.has(e.layer)) continue;
    switch (e.type) {
      case "LWPOLYLINE":
      case "POLYLINE":
        must(e.shape === true, `open ${e.type} on layer ${e.layer}`);
        radii.push(...radiiOf(e));
        break;
      case "CIRCLE":
        radii.push(e.radius);
        break;
      case "ARC":
        radii.push(e.radius);
        open.push(...ends(e));
        break;
      case "LINE":
        open.push(...ends(e));
        break;
      default:
        must(false, `${e.type} on layer ${e.layer}`);
    }
  }
  open.forEach((p, i) => {
    const met = open.filter((q, j) => i !== j && Math.hypot(p[0] - q[0], p[1] - q[1]) * unit <= 1e-6).length;
    must(met === 1, `${met} ends meet the one at ${p}`);
  });
  const both = (o) => JSON.stringify(Object.entries(o).sort());
  must(both(kinds) === both(want.kinds), `entities ${both(kinds)}, want ${both(want.kinds)}`);
  const got = radii.map((r) => r * unit).sort((a, b) => a - b);
  must(got.length === want.radii.length, `${got.length} arcs and circles, want ${want.radii.length}`);
  got.forEach((r, i) => must(Math.abs(r - want.radii[i]) <= radiusTolerance, `radius ${r}, want ${want.radii[i]}`));
  const count = Object.entries(kinds).map(([k, n]) => `${n} ${k}`).sort().join(", ");
  return `${count}, ${got.length} radii agree`;
}

let faults = 0;
for (const file of files) {
  try {
    console.log(`${file}: ${check(file, facts[file])}: ok`);
  } catch (e) {
    console.log(`FAULT ${file}: ${e.message}`);
    faults++;
  }
}
process.exit(faults ? 1 : 0);
