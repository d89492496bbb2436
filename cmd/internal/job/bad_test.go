package job

import (
	"strings"
	"testing"
)

// good is the job that the bad ones are made from.
const good = `name = "arm"
units = "mm"

[tube]
shape = "rectangle"
width = "40 mm"
depth = "40 mm"
wall = "3 mm"
corner = "0 mm"
material = "6082-T6"

[bend]
radius = "420 mm"
angle = "33 deg"
legs = ["250 mm", "250 mm"]

[allowance]
mode = "computed"

[strip]
thickness = "6 mm"

[block]
plate = "10 mm"

[filler]
alloy = "158"

[press]
capacity = "20 t"

[ends]
cut = [0, 22.5]

[cutting]
kerf = 0

[drawing]
owner = "shop"

[[trial]]
block = "380 mm"
travel = "38 mm"
melted = "32 deg"
`

const combos = "allowed are radius + angle, chord + rise, radius + arc or angle + arc"

// Each row takes a line out of the good job, puts another in, and gives the
// whole sentence, or its start before "..." where another package writes it.
func TestBadJobs(t *testing.T) {
	for _, c := range []struct{ out, in, want string }{
		// Missing keys stand at their table, missing tables at the top.
		{`name = "arm"`, ``, `j:1: name: missing; write it like name = "davit-arm"`},
		{`shape = "rectangle"`, ``, `j:4: tube.shape: missing; write it like shape = "rectangle"`},
		{`width = "40 mm"`, ``, `j:4: tube.width: missing; write it like width = "40 mm"`},
		{`depth = "40 mm"`, ``, `j:4: tube.depth: missing; write it like depth = "40 mm"`},
		{`wall = "3 mm"`, ``, `j:4: tube.wall: missing; write it like wall = "3 mm"`},
		{`material = "6082-T6"`, ``, `j:4: tube.material: missing; write it like material = "6082-T6", or add a table [material]`},
		{`legs = ["250 mm", "250 mm"]`, ``, `j:12: bend.legs: missing; write it like legs = ["250 mm", "250 mm"]`},
		{`block = "380 mm"`, ``, `j:41: trial.block: missing; write it like block = "260 mm"`},

		// Unknown ones, the first in the file.
		{`wall = "3 mm"`, `wal = "3 mm"`, `j:8: tube.wal: unknown key; the nearest known key is tube.wall`},
		{`wall = "3 mm"`, `wlal = "3 mm"`, `j:8: tube.wlal: unknown key; the nearest known key is tube.wall`},
		{`wall = "3 mm"`, `Wall = "3 mm"`, `j:8: tube.Wall: unknown key; the nearest known key is tube.wall`},
		{`wall = "3 mm"`, `kerf = "3 mm"`, `j:8: tube.kerf: unknown key; the nearest known key is cutting.kerf`},
		{`wall = "3 mm"`, `"wa ll" = "3 mm"`, `j:8: tube."wa ll": unknown key; the nearest known key is tube.wall`},
		{`wall = "3 mm"`, `"wall\n" = "3 mm"`, `j:8: tube."wall\n": unknown key; the nearest known key is tube.wall`},
		{`units = "mm"`, `unit = "mm"`, `j:2: unit: unknown key; the nearest known key is units`},
		{`units = "mm"`, `wall = "3 mm"`, `j:2: wall: unknown key; the nearest known key is tube.wall`},
		{`units = "mm"`, `tub.wall = "3 mm"`, `j:2: tub: unknown key; the nearest known key is tube`},
		{`wall = "3 mm"`, `a.b.c = 1`, `j:8: tube.a: unknown key; the nearest known key is tube.wall`},
		{`wall = "3 mm"`, `"a.b" = 1`, `j:8: tube."a.b": unknown key; the nearest known key is tube.wall`},
		{`wall = "3 mm"`, `wall.thick = 1`, `j:8: tube.wall: a table is not allowed; it must be a length like 40 mm`},
		{`[bend]`, `[bends]`, `j:12: bends: unknown key; the nearest known key is bend`},
		{`[[trial]]`, `[[trials]]`, `j:41: trials: unknown key; the nearest known key is trial`},
		{`travel = "38 mm"`, `travle = "38 mm"`, `j:43: trial.travle: unknown key; the nearest known key is trial.travel`},
		{`[strip]`, "[strip]\ndesnity = 3\nzzz = 1", `j:21: strip.desnity: unknown key; the nearest known key is material.density`},
		{`material = "6082-T6"`, `material = {proof = "1 MPa", elongatoin = "8 %"}`, `j:10: tube.material.elongatoin: unknown key; the nearest known key is tube.material.elongation`},

		// Wrong types.
		{`name = "arm"`, `name = true`, `j:1: name: true or false is not allowed; it must be a text in quotes`},
		{`name = "arm"`, `name = 1.5`, `j:1: name: a number is not allowed; it must be a text in quotes`},
		{`name = "arm"`, `name.first = "arm"`, `j:1: name: a table is not allowed; it must be a text in quotes`},
		{`name = "arm"`, `name = ""`, `j:1: name: an empty text is not allowed; write something or leave the key out`},
		{`name = "arm"`, `name = "a\u0007b"`, `j:1: name: a character that can't be printed is not allowed; it must be one line of plain text`},
		{`name = "arm"`, "name = '''a\nb'''", `j:1: name: a character that can't be printed is not allowed; it must be one line of plain text`},
		{`name = "arm"`, `name = "` + strings.Repeat("é", 61) + `"`, `j:1: name: 61 characters are not allowed; it must be at most 60`},
		{`units = "mm"`, `units = "cm"`, `j:2: units: "cm" is not allowed; it must be "mm" or "in"`},
		{`units = "mm"`, `units = 25.4`, `j:2: units: a number is not allowed; it must be "mm" or "in"`},
		{`[allowance]`, "[[allowance]]", `j:17: allowance: an array of tables is not allowed; it must be a table, written [allowance]`},
		{`wall = "3 mm"`, `wall = [3]`, `j:8: tube.wall: an array is not allowed; it must be a length like 40 mm`},
		{`wall = "3 mm"`, `wall = 1979-05-27`, `j:8: tube.wall: a date is not allowed; it must be a length like 40 mm`},
		{`wall = "3 mm"`, `wall = {mm = 3}`, `j:8: tube.wall: a table is not allowed; it must be a length like 40 mm`},
		{`shape = "rectangle"`, `shape = "square"`, `j:5: tube.shape: "square" is not allowed; it must be "rectangle" or "round"`},
		{`legs = ["250 mm", "250 mm"]`, `legs = 250`, `j:15: bend.legs: a number is not allowed; it must be two values, like ["250 mm", "250 mm"]`},
		{`legs = ["250 mm", "250 mm"]`, `legs = [250]`, `j:15: bend.legs: an array of 1 is not allowed; it must be two values, like ["250 mm", "250 mm"]`},
		{`legs = ["250 mm", "250 mm"]`, "legs = [\n250,\n[1],\n]", `j:15: bend.legs: an array is not allowed; it must be a length like 40 mm`},
		{`cut = [0, 22.5]`, `cut = [0, 1, 2]`, `j:33: ends.cut: an array of 3 is not allowed; it must be one value or two, like ["0 deg", "22.5 deg"]`},
		{`plate = "10 mm"`, `lighten = "yes"`, `j:24: block.lighten: a text is not allowed; it must be true or false without quotes`},
		{`owner = "shop"`, `owner = 3.5`, `j:39: drawing.owner: a number is not allowed; it must be a text in quotes`},

		// Lengths.
		{`wall = "3 mm"`, `wall = "0 mm"`, `j:8: tube.wall: 0 mm is not allowed; it must be more than 0 mm`},
		{`wall = "3 mm"`, `wall = 0`, `j:8: tube.wall: 0 mm is not allowed; it must be more than 0 mm`},
		{`wall = "3 mm"`, `wall = -0.0`, `j:8: tube.wall: -0 mm is not allowed; it must be more than 0 mm`},
		{`wall = "3 mm"`, `wall = -3`, `j:8: tube.wall: -3 is not allowed; a length can't be negative`},
		{`wall = "3 mm"`, `wall = "-3 mm"`, `j:8: tube.wall: -3 mm is not allowed; a length can't be negative`},
		{`wall = "3 mm"`, `wall = nan`, `j:8: tube.wall: "NaN" is not a length; write it like 40 mm`},
		{`wall = "3 mm"`, `wall = -inf`, `j:8: tube.wall: "-Inf" is not a length; write it like 40 mm`},
		{`wall = "3 mm"`, `wall = 1e308`, `j:8: tube.wall: "1e+308" is too large for a length`},
		{`wall = "3 mm"`, `wall = "1e308"`, `j:8: tube.wall: "1e308" is too large for a length`},
		{`wall = "3 mm"`, `wall = 1e999`, `j:8: tube.wall: a number so large is not allowed`},
		{`wall = "3 mm"`, `wall = 99999999999999999999`, `j:8: tube.wall: a number so large is not allowed`},
		{`wall = "3 mm"`, `wall = 1e-9`, `j:8: tube.wall: 1e-09 mm is not allowed; it must be at least 0.01 mm`},
		{`wall = "3 mm"`, `wall = "3 kg"`, `j:8: tube.wall: "3 kg" has the unknown unit "kg"; a length takes mm, cm, m or inch units`},
		{`plate = "10 mm"`, "plate = \"10 mm\"\nuse = \"arch\"\nexisting = \"360 mm\"", `j:26: block.existing: not allowed with use, which makes the kit around a block of the rack; leave one of them out`},
		{`alloy = "158"`, "alloy = \"158\"\nplugs = [\"20 mm\"]", `j:28: filler.plugs: an array of 1 is not allowed; it must be one value or two, like "20 mm"`},
		{`alloy = "158"`, "alloy = \"158\"\nplugs = [\"20 mm\", \"-1 mm\"]", `j:28: filler.plugs: -1 mm is not allowed; a length can't be negative`},
		{`wall = "3 mm"`, `wall = "3,5 mm"`, `j:8: tube.wall: "3,5 mm" has a comma; write the number with a dot and without a thousands mark, like 1.5`},
		{`wall = "3 mm"`, `wall = ""`, `j:8: tube.wall: an empty text is not a length; write it like 40 mm`},
		{`wall = "3 mm"`, `wall = "20 mm"`, `j:8: tube.wall: 20 mm leaves no bore; it must be less than 20 mm, half the depth`},
		{`width = "40 mm"`, `width = "6 mm"`, `j:8: tube.wall: 3 mm leaves no bore; it must be less than 3 mm, half the width`},
		{`width = "40 mm"`, `width = "50 m"`, `j:4: tube: the width must be from 0.01 mm to 10000 mm, not 50000 mm`},
		{`width = "40 mm"`, `width = "200 m"`, `j:6: tube.width: 200 m is not allowed; it must be at most 100 m`},
		{`corner = "0 mm"`, `corner = "21 mm"`, `j:9: tube.corner: 21 mm is not allowed; it must be at most 20 mm, half the depth`},
		{`material = "6082-T6"`, `material = "6082-T66"`, `j:10: tube.material: material "6082-T66" is not in the catalogue...`},
		{`wall = "3 mm"`, `wall = "16 mm"`, `j:10: tube.material: 6082-T6 is listed for walls up to 15 mm, not 16 mm`},

		// The bend.
		{`radius = "420 mm"`, `radius = "39 mm"`, `j:13: bend.radius: a centreline radius of 39 mm is not allowed; it must be at least 40 mm, the tube's depth`},
		{`radius = "420 mm"`, "radius = \"50 mm\"\nradius_at = \"outside\"", `j:13: bend.radius: a centreline radius of 30 mm is not allowed; it must be at least 40 mm, the tube's depth`},
		{`radius = "420 mm"`, `radius_at = "inner"`, `j:14: bend.angle: angle alone does not fix the bend; ` + combos},
		{`angle = "33 deg"`, ``, `j:13: bend.radius: radius alone does not fix the bend; ` + combos},
		{`angle = "33 deg"`, `radius_at = "inner"` + "\narc = 300", `j:14: bend.radius_at: "inner" is not allowed; it must be "centre", "inside" or "outside"`},
		{`angle = "33 deg"`, `angle = 0`, `j:14: bend.angle: 0 deg is not allowed; it must be from 0.01 to 180 deg`},
		{`angle = "33 deg"`, `angle = "181 deg"`, `j:14: bend.angle: 181 deg is not allowed; it must be from 0.01 to 180 deg`},
		{`angle = "33 deg"`, `angle = "-33°"`, `j:14: bend.angle: -33° is not allowed; it must be from 0.01 to 180 deg`},
		{`angle = "33 deg"`, `angle = "4 rad"`, `j:14: bend.angle: 4 rad is not allowed; it must be from 0.01 to 180 deg`},
		{`angle = "33 deg"`, `angle = inf`, `j:14: bend.angle: "+Inf" is not an angle; write it like 33 deg`},
		{`angle = "33 deg"`, `angle = "33 mm"`, `j:14: bend.angle: "33 mm" has the unknown unit "mm"; an angle takes deg or rad`},
		{`angle = "33 deg"`, `arc = "2 m"`, `j:14: bend.arc: 2000 mm is not allowed; it must be at most 1319.46 mm, half a turn on the radius of 420 mm`},
		{`angle = "33 deg"`, `arc = 0.01`, `j:13: bend.radius: a bend of 0.00136419 deg is not allowed; it must be at least 0.01 deg`},
		{`angle = "33 deg"`, "angle = 33\narc = 300", `j:15: bend.arc: radius, angle and arc together are not allowed; ` + combos},
		{`angle = "33 deg"`, "rise = 33\nchord = 300", `j:15: bend.chord: radius, chord and rise together are not allowed; ` + combos},
		{"radius = \"420 mm\"\nangle = \"33 deg\"", ``, `j:12: bend: missing; ` + combos},
		{"[bend]\nradius = \"420 mm\"\nangle = \"33 deg\"\nlegs = [\"250 mm\", \"250 mm\"]", ``, `j:1: bend: missing; ` + combos},
		{"radius = \"420 mm\"\nangle = \"33 deg\"", `chord = 200`, `j:13: bend.chord: chord without rise; ` + combos},
		{"radius = \"420 mm\"\nangle = \"33 deg\"", `rise = 20`, `j:13: bend.rise: rise without chord; ` + combos},
		{"radius = \"420 mm\"\nangle = \"33 deg\"", "chord = 200\nrise = 101", `j:14: bend.rise: 101 mm is not allowed; it must be at most 100 mm, half the chord, for a bend of up to 180 deg`},
		{"radius = \"420 mm\"\nangle = \"33 deg\"", "chord = \"99 m\"\nrise = 100", `j:14: bend.rise: a centreline radius of 12251300 mm is not allowed; it must be at most 100 m`},
		{"radius = \"420 mm\"\nangle = \"33 deg\"", "angle = 1\narc = 0.5", `j:14: bend.arc: a centreline radius of 28.6479 mm is not allowed; it must be at least 40 mm, the tube's depth`},
		{`legs = ["250 mm", "250 mm"]`, `legs = ["250 mm", "-1 mm"]`, `j:15: bend.legs: -1 mm is not allowed; a length can't be negative`},

		// Allowance, strip, block, filler, press, ends, cutting.
		{`mode = "computed"`, `mode = "guess"`, `j:18: allowance.mode: "guess" is not allowed; it must be "computed", "ratio" or "degrees"`},
		{`mode = "computed"`, `mode = "ratio"`, `j:17: allowance.ratio: missing; write it like ratio = 0.92`},
		{`mode = "computed"`, `mode = "degrees"`, `j:17: allowance.degrees: missing; write it like degrees = "3 deg"`},
		{`mode = "computed"`, `ratio = 0.9`, `j:18: allowance.ratio: not allowed with mode "computed"; set mode = "ratio" or leave ratio out`},
		{`mode = "computed"`, "mode = \"ratio\"\nratio = 1.01", `j:19: allowance.ratio: 1.01 is not allowed; it must be from 0.01 to 1`},
		{`mode = "computed"`, "mode = \"ratio\"\nratio = 0", `j:19: allowance.ratio: 0 is not allowed; it must be from 0.01 to 1`},
		{`mode = "computed"`, "mode = \"ratio\"\nratio = \"0.9 mm\"", `j:19: allowance.ratio: "0.9 mm" has a unit; a plain number takes none`},
		{`mode = "computed"`, "mode = \"degrees\"\ndegrees = -1", `j:19: allowance.degrees: -1 deg is not allowed; it must be from 0 to 90 deg`},
		{`mode = "computed"`, `proof = 260`, `j:18: allowance.proof: "260" has no unit; write it like 260 MPa`},
		{`mode = "computed"`, `proof = "0 MPa"`, `j:18: allowance.proof: 0 MPa is not allowed; it must be from 1 MPa to 5000 MPa`},
		{`thickness = "6 mm"`, `thickness = 0`, `j:21: strip.thickness: 0 mm is not allowed; it must be more than 0 mm`},
		{`thickness = "6 mm"`, `material = "butter"`, `j:21: strip.material: material "butter" is not in the catalogue...`},
		{`plate = "10 mm"`, `plate = 0`, `j:24: block.plate: 0 mm is not allowed; it must be more than 0 mm`},
		{`plate = "10 mm"`, `hole = "0 in"`, `j:24: block.hole: 0 in is not allowed; it must be more than 0 mm`},
		{`alloy = "158"`, `alloy = "159"`, `j:27: filler.alloy: filler alloy "159" is not in the catalogue...`},
		{`alloy = "158"`, `plugs = -1`, `j:27: filler.plugs: -1 is not allowed; a length can't be negative`},
		{`capacity = "20 t"`, `capacity = "0 t"`, `j:30: press.capacity: 0 t is not allowed; it must be from 0.1 t to 10000 t`},
		{`capacity = "20 t"`, `capacity = 20`, `j:30: press.capacity: "20" has no unit; write it like 20 t or 200 kN`},
		{`capacity = "20 t"`, `capacity = "20 ton"`, `j:30: press.capacity: "20 ton" could be metric or short tons; write t for metric tons, tonf for short tons`},
		{`capacity = "20 t"`, `roller = 0`, `j:30: press.roller: 0 mm is not allowed; it must be more than 0 mm`},
		{`capacity = "20 t"`, `supports = "40 mm"`, `j:30: press.supports: 40 mm is not allowed; it must be more than 40 mm, the roller diameter`},
		{`capacity = "20 t"`, "roller = 500\nsupports = 400", `j:31: press.supports: 400 mm is not allowed; it must be more than 500 mm, the roller diameter`},
		{`cut = [0, 22.5]`, `cut = "80.1 deg"`, `j:33: ends.cut: 80.1 deg is not allowed; it must be from -75 to 75 deg`},
		{`cut = [0, 22.5]`, `trim = [1, -1]`, `j:33: ends.trim: -1 is not allowed; a length can't be negative`},
		{`kerf = 0`, `kerf = "-1 mm"`, `j:36: cutting.kerf: -1 mm is not allowed; a length can't be negative`},
		{`kerf = 0`, `kerf = "13 mm"`, `j:36: cutting.kerf: 13 mm is not allowed; it must be at most 6.5 mm, half the bolt hole`},
		{`kerf = 0`, `kerf = "6.6 mm"`, `j:36: cutting.kerf: 6.6 mm is not allowed; it must be at most 6.5 mm, half the bolt hole`},
		{`kerf = 0`, `process = "torch"`, `j:36: cutting.process: "torch" is not allowed; it must be "plasma", "laser", "waterjet" or "saw"`},
		{`kerf = 0`, `sheet = "1000 mm"`, `j:36: cutting.sheet: "1000 mm" is not a size; write it like 1000x500 mm`},
		{`kerf = 0`, `sheet = "0x500 mm"`, `j:36: cutting.sheet: 0x500 mm is not allowed; each side must be from 1 mm to 100 m`},
		{`kerf = 0`, `sheet = [1000, 500]`, `j:36: cutting.sheet: an array is not allowed; it must be a size like "1000x500 mm"`},

		// Trials.
		{`travel = "38 mm"`, ``, `j:41: trial: travel or loaded is missing; say how far it was pressed, like travel = "38 mm" or loaded = "36 deg"`},
		{`travel = "38 mm"`, "travel = 38\nloaded = 36", `j:44: trial.loaded: travel and loaded together are not allowed; keep the one that was measured better`},
		{`melted = "32 deg"`, ``, `j:41: trial: a trial without a measurement; give filled, melted, or chord and rise`},
		{`melted = "32 deg"`, `chord = 200`, `j:44: trial.chord: chord without rise; give both or neither`},
		{`melted = "32 deg"`, `rise = 200`, `j:44: trial.rise: rise without chord; give both or neither`},
		{`melted = "32 deg"`, "rise = 101\nchord = 200", `j:44: trial.rise: 101 mm is not allowed; it must be at most 100 mm, half the chord`},
		{`travel = "38 mm"`, `loaded = 31`, `j:44: trial.melted: 32 deg is not allowed; it must be at most the angle under pressure, 31 deg, as a bend opens when let go`},
		{`[[trial]]`, `[trial]`, `j:41: trial: a table is not allowed; each trial is a table that starts with [[trial]]`},
		{`melted = "32 deg"`, "melted = 32\n" + strings.Repeat("[[trial]]\n", 100), `j:41: trial: 101 trials are not allowed; it must be at most 100`},
		{`melted = "32 deg"`, "melted = 32\n[[trial]]\nblock = 1\ntravel = 1\nmelted = 0", `j:48: trial.melted: 0 deg is not allowed; it must be from 0.01 to 180 deg`},

		// TOML's own rules.
		{`wall = "3 mm"`, `wall "3 mm"`, `j:8: not valid TOML: a key is followed by = and its value`},
		{`wall = "3 mm"`, `wall: "3 mm"`, `j:8: not valid TOML: a key is followed by = and its value`},
		{`wall = "3 mm"`, `= "3 mm"`, `j:8: not valid TOML: a line is a key with = and a value, a [table] or a # comment`},
		{`wall = "3 mm"`, `wall = 3mm`, `j:8: tube.wall: not valid TOML: the line goes on where it should end; a value with a unit stands in quotes, like "3 mm"`},
		{`wall = "3 mm"`, `wall = 1/8`, `j:8: tube.wall: not valid TOML: the line goes on where it should end; a value with a unit stands in quotes, like "3 mm"`},
		{`wall = "3 mm"`, `wall = “3 mm”`, `j:8: tube.wall: not valid TOML: a text stands in straight quotes, like "3 mm"`},
		{`wall = "3 mm"`, `wall = # what?`, `j:8: tube.wall: not valid TOML: the value is missing`},
		{`wall = "3 mm"`, `wall = ]`, `j:8: tube.wall: not valid TOML: expected a value but found "]"; a text stands in quotes`},
		{`wall = "3 mm"`, `wall = .5`, `j:8: tube.wall: not valid TOML: expected a value but found ".5"; a text stands in quotes`},
		{`wall = "3 mm"`, `wall = 5.`, `j:8: tube.wall: not valid TOML: decimal point must be followed by a digit`},
		{`wall = "3 mm"`, `wall = +x`, `j:8: tube.wall: not valid TOML: expected a value but found "x"; a text stands in quotes`},
		{`wall = "3 mm"`, `wall = '3 mm`, `j:8: tube.wall: not valid TOML: the closing quote is missing`},
		{`wall = "3 mm"`, `wall = """3 mm`, `j:8: tube.wall: not valid TOML: the closing quote is missing`},
		{`wall = "3 mm"`, `wall = 2025-13-01`, `j:8: tube.wall: 2025-13-01 is no date or time; write a date like 2025-06-01`},
		{`wall = "3 mm"`, `"w all" = round`, `j:8: tube."w all": not valid TOML: expected a value but found "round"; a text stands in quotes`},
		{`wall = "3 mm"`, `material = {proof = , elongation = 1}`, `j:8: tube.material: not valid TOML: the value is missing`},
		{`wall = "3 mm"`, `material = {proof = 1`, `j:9: tube.material: not valid TOML: a comma or the closing bracket is missing; the value starts in line 8`},
		{`legs = ["250 mm", "250 mm"]`, `legs = ["250 mm", "250 mm"`, `j:17: bend.legs: not valid TOML: a comma or the closing bracket is missing; the value starts in line 15`},
		{`legs = ["250 mm", "250 mm"]`, `legs = ["250 mm" "250 mm"]`, `j:15: bend.legs: not valid TOML: a comma or the closing bracket is missing`},
		{`legs = ["250 mm", "250 mm"]`, `legs = ["250 mm", , 3]`, `j:15: bend.legs: not valid TOML: the value is missing`},
		{`legs = ["250 mm", "250 mm"]`, "# a remark\n\n\tlegs = [\n\"250 mm\", # one\n250 mm\n]", `j:19: bend.legs: not valid TOML: a comma or the closing bracket is missing; the value starts in line 17`},
		{`melted = "32 deg"`, "melted = 32\nblock = [1, 2", `j:45: trial.block: not valid TOML: the closing bracket is missing`},
		{`melted = "32 deg"`, "melted = 32\nblock = [1, 2\n# end", `j:45: trial.block: not valid TOML: the closing bracket is missing`},
		{`[bend]`, `[[bend]`, `j:12: not valid TOML: the table's name is not closed; write it like [bend] or [[trial]]`},
		{`[bend]`, `[bend] radius = 420`, `j:12: not valid TOML: the line goes on behind the table's name; each key has a line of its own`},
		{`[bend]`, `[]`, `j:12: not valid TOML: a line is a key with = and a value, a [table] or a # comment`},
		{`wall = "3 mm"`, `wall = "3 mm\q"`, `j:8: tube.wall: not valid TOML: invalid escape character U+0071 'q'`},
		{`wall = "3 mm"`, "wall = {a = 1}\nwall.b = 2", `j:9: tube.wall: given twice; keep one`},
		{`wall = "3 mm"`, "wall = {a = 1, a = 2}", `j:8: tube.wall.a: given twice; keep one`},
		{`[strip]`, "[tube.wall]", `j:20: tube.wall: given twice; keep one`},
		{`[strip]`, "[tube.wall.x]", `j:20: tube.wall: given twice; keep one`},
		{`[strip]`, "[[bend.legs]]", `j:20: bend.legs: given twice; keep one`},
		{`[[trial]]`, "[[trial]]\n[trial]", `j:42: trial: given twice; keep one`},
		{`units = "mm"`, `x = ` + strings.Repeat("[", 100_000), `j:2: values nested more than 16 deep are not allowed`},
		{`units = "mm"`, `x = ` + strings.Repeat("[", 17), `j:4: x: not valid TOML: expected a value but found "tube"; a text stands in quotes; the value starts in line 2`},
		{`units = "mm"`, strings.Repeat("a", 101) + ` = 1`, `j:2: a key of more than 100 characters is not allowed`},
		{`thickness = "6 mm"`, strings.Repeat("a", 94) + " = 1", `j:21: strip.aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa...: unknown key; the nearest known key is strip.material`},
		{`thickness = "6 mm"`, strings.Repeat("a", 95) + " = 1", `j:21: a key of more than 100 characters is not allowed`},
		{`wall = "3 mm"`, `wall = 3 mm`, `j:8: tube.wall: not valid TOML: the line goes on where it should end; a value with a unit stands in quotes, like "3 mm"`},
		{`wall = "3 mm"`, `wall = "1/8""`, `j:8: tube.wall: not valid TOML: a quote follows the text; write inches as in, or put a text with an inch mark in single quotes`},
		{`shape = "rectangle"`, `shape = round`, `j:5: tube.shape: not valid TOML: expected a value but found "round"; a text stands in quotes`},
		{`wall = "3 mm"`, `wall =`, `j:8: tube.wall: not valid TOML: the value is missing`},
		{`wall = "3 mm"`, `wall`, `j:8: not valid TOML: a key is followed by = and its value`},
		{`wall = "3 mm"`, `wall = "3 mm`, `j:8: tube.wall: not valid TOML: the closing quote is missing`},
		{`wall = "3 mm"`, `wall = 03`, `j:8: tube.wall: not valid TOML: integers cannot have leading zeroes`},
		{`wall = "3 mm"`, "wall = 3\nwall = 4", `j:9: tube.wall: given twice; keep one`},
		{`[strip]`, `[tube]`, `j:20: tube: given twice; keep one`},
		{`[strip]`, `[[tube]]`, `j:20: tube: given twice; keep one`},
		{`units = "mm"`, `bend = 3`, `j:12: bend: given twice; keep one`},
		{`[bend]`, `[bend`, `j:12: not valid TOML: the table's name is not closed; write it like [bend] or [[trial]]`},
		{`wall = "3 mm"`, "wall = \"3\x00\"", `j:8: the control character 0x00 is not allowed`},
		{`wall = "3 mm"`, "wall = 3\r# no line end", `j:8: the control character 0x0d is not allowed`},
		{`wall = "3 mm"`, "wall = \"3\xff\"", `j:8: not valid UTF-8; save the file as UTF-8 text`},
		{`units = "mm"`, `x = ` + strings.Repeat("[", 17) + strings.Repeat("]", 17), `j:2: values nested more than 16 deep are not allowed`},
		{`units = "mm"`, `x = ` + strings.Repeat("{a=", 17) + "1" + strings.Repeat("}", 17), `j:2: values nested more than 16 deep are not allowed`},
		{`units = "mm"`, strings.Repeat("a.", 8) + "a = 1", `j:2: a key of more than 8 parts is not allowed`},
		{`[strip]`, "[" + strings.Repeat("a.", 500_000) + "a]", `j:20: a key of more than 8 parts is not allowed`},
	} {
		if !strings.Contains(good, c.out) {
			t.Fatalf("the good job has no line %q", c.out)
		}
		_, err := Parse("j", []byte(strings.Replace(good, c.out, c.in, 1)))
		if err == nil {
			t.Errorf("%.80q: no error, want %s", c.in, c.want)
		} else if !says(err, c.want) {
			t.Errorf("%.80q:\n got %s\nwant %s", c.in, err, c.want)
		}
	}
}

// says reports whether an error is the sentence, or starts with what stands
// before "..." in it.
func says(err error, want string) bool {
	if start, ok := strings.CutSuffix(want, "..."); ok {
		return strings.HasPrefix(err.Error(), start)
	}
	return err.Error() == want
}
