package main

import (
	"encoding/json"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Where the block's tangent points are scribed and how long the strip is, with a
// press, of which the wrap counts, and without one, where no press state makes
// the part and the plain arc counts: its own angle, and for the strip the
// strongest metal's outer arc, two depths of leg and one of overhang each side.
func TestMarksWithAndWithoutPress(t *testing.T) {
	text, err := os.ReadFile(demo)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, capacity string
		pressed        bool
	}{{"press", "20 t", true}, {"none", "0.1 t", false}} {
		dir := t.TempDir()
		path := filepath.Join(dir, c.name+".toml")
		job := strings.Replace(string(text), `capacity = "20 t"`, `capacity = "`+c.capacity+`"`, 1)
		if err := os.WriteFile(path, []byte(job), 0o666); err != nil {
			t.Fatal(err)
		}
		run([]string{"make", path, "-o", filepath.Join(dir, "kit"), "--force", "--dxf", "r12-plain"}, io.Discard, io.Discard)
		data, err := os.ReadFile(filepath.Join(dir, "kit", "job.json"))
		if err != nil {
			t.Fatal(err)
		}
		type arc struct {
			Radius float64 `json:"pressed_centreline_radius_mm"`
			Angle  float64 `json:"pressed_arc_angle_deg"`
		}
		var got struct {
			Overbend struct {
				arc
				Range struct{ High arc }
			}
			Press *struct {
				HalfWrap float64 `json:"wrap_deg"`
			}
			Strip struct {
				Length float64 `json:"length_mm"`
			}
		}
		if err := json.Unmarshal(data, &got); err != nil {
			t.Fatal(err)
		}
		if (got.Press != nil) != c.pressed {
			t.Fatalf("%s: press %v", c.name, got.Press)
		}
		want := got.Overbend.Angle / 2
		if c.pressed {
			want = got.Press.HalfWrap
		} else {
			const depth = 40.0
			length := math.Max(got.Overbend.Angle, got.Overbend.Range.High.Angle)*math.Pi/180*(got.Overbend.Radius+depth/2) + 2*(2*depth+depth)
			if math.Abs(got.Strip.Length-length) > 1e-6 {
				t.Errorf("%s: strip of %g mm, want %g", c.name, got.Strip.Length, length)
			}
		}
		for _, file := range []string{"block.dxf", "cheek.dxf"} {
			left, right := 0, 0
			for _, l := range scribed(t, filepath.Join(dir, "kit", file)) {
				lean := math.Atan((l[2]-l[0])/(l[3]-l[1])) * 180 / math.Pi
				switch {
				case math.Abs(lean-want) < 1e-4:
					right++
				case math.Abs(lean+want) < 1e-4:
					left++
				case math.Abs(lean) > 1e-9:
					t.Errorf("%s: %s has a mark that leans by %g°, want %g°", c.name, file, lean, want)
				}
			}
			if left != 1 || right != 1 {
				t.Errorf("%s: %s has %d and %d marks at %g°, want one each side", c.name, file, left, right, want)
			}
		}
	}
}

// scribed returns the scribed lines of a plain DXF file, x and y of both ends.
func scribed(t *testing.T, path string) (out [][4]float64) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.ReplaceAll(string(data), "\r\n", "\n"), "\n")
	kind, layer := "", ""
	var at [4]float64
	for i := 0; i+1 < len(lines); i += 2 {
		value := strings.TrimSpace(lines[i+1])
		switch strings.TrimSpace(lines[i]) {
		case "0":
			if kind == "LINE" && layer == "SCRIBE" {
				out = append(out, at)
			}
			kind = value
		case "8":
			layer = value
		case "10":
			at[0], _ = strconv.ParseFloat(value, 64)
		case "20":
			at[1], _ = strconv.ParseFloat(value, 64)
		case "11":
			at[2], _ = strconv.ParseFloat(value, 64)
		case "21":
			at[3], _ = strconv.ParseFloat(value, 64)
		}
	}
	return out
}
