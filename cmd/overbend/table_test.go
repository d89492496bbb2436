package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"pgregory.net/rapid"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/keyed"
	"overbend/cmd/internal/quantity"
)

// A row of a table is what show says of the job with the keys set: its numbers to
// the last digit, its reasons where it can't be made, its sentence where the file
// may not say so.
func TestTableRowIsShow(t *testing.T) {
	text, err := os.ReadFile(demo)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	columns := []string{
		"block.radius_mm", "press.supports_mm", "press.travel_mm", "press.schedule.1.released_angle_deg", "blank.length_mm",
		"feasible", "section.shape", "block.layers", "filler.mass_kg", "bend.legs_mm.1", "tube_after.area_mm2", "fixture.pins.4.touches",
	}
	states := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		values := [][2]string{}
		for _, k := range []struct {
			key, unit string
			lo, hi    float64
		}{{"bend.radius", " mm", 30, 900}, {"tube.wall", " mm", 0.2, 25}, {"press.capacity", " t", 1, 30}, {"bend.legs[1]", " mm", 0, 400}} {
			if rapid.Bool().Draw(t, k.key) {
				values = append(values, [2]string{k.key, fmt.Sprintf("%.3g%s", rapid.Float64Range(k.lo, k.hi).Draw(t, k.key), k.unit)})
			}
		}
		values = append(values, [2]string{"filler.alloy", rapid.SampledFrom([]string{"158", "none"}).Draw(t, "alloy")})
		args := []string{"table", demo, "--csv", "--columns", strings.Join(columns, ",")}
		one := string(text)
		for _, v := range values {
			args = append(args, "--vary", v[0]+"="+v[1])
			var err error
			if one, err = keyed.Set(one, v[0], keyed.Quote(v[1])); err != nil {
				t.Fatal(err)
			}
		}
		var rows, said bytes.Buffer
		code := run(args, &rows, &said)
		records, err := csv.NewReader(&rows).ReadAll()
		if err != nil || len(records) != 2 {
			t.Fatal(code, err, records, &said)
		}
		row := map[string]string{}
		for i, name := range records[0] {
			row[name] = records[1][i]
		}
		for _, v := range values {
			if row[v[0]] != v[1] {
				t.Errorf("%s is %q, set to %q", v[0], row[v[0]], v[1])
			}
		}
		path := filepath.Join(dir, "one.toml")
		if err := os.WriteFile(path, []byte(one), 0o666); err != nil {
			t.Fatal(err)
		}
		var shown, stderr bytes.Buffer
		switch run([]string{"show", path, "--json"}, &shown, &stderr) {
		case exitMisuse:
			states["refused"]++
			if why := row[whyColumn]; why == "" || !strings.Contains(stderr.String(), why) || code != exitMisuse {
				t.Errorf("%q is no part of %s", why, &stderr)
			}
			for _, name := range columns {
				if row[name] != "" {
					t.Errorf("%s is %s", name, row[name])
				}
			}
			return
		case exitCannot:
			states["cannot"]++
			for why := range strings.SplitSeq(row[whyColumn], "; ") {
				if why == "" || !strings.Contains(stderr.String(), why) {
					t.Errorf("%q is no part of %s", why, &stderr)
				}
			}
		case exitDone:
			states["done"]++
			if row[whyColumn] != "" {
				t.Errorf("why %s", row[whyColumn])
			}
		}
		if code != exitDone || said.Len() > 0 {
			t.Errorf("%d, %s", code, &said)
		}
		d := json.NewDecoder(&shown)
		d.UseNumber()
		var doc any
		if err := d.Decode(&doc); err != nil {
			t.Fatal(err)
		}
		for _, name := range columns {
			if want := cellOf(doc, name); row[name] != want {
				t.Errorf("%s is %s, shown as %s", name, row[name], want)
			}
		}
	})
	if states["refused"] == 0 || states["cannot"] == 0 || states["done"] == 0 {
		t.Error("not all is tried:", states)
	}
}

// cellOf returns the digits that a JSON document has at a path; "" for none.
func cellOf(v any, path string) string {
	for key := range strings.SplitSeq(path, ".") {
		switch in := v.(type) {
		case map[string]any:
			v = in[key]
		case []any:
			i, _ := strconv.Atoi(key)
			if i >= len(in) {
				return ""
			}
			v = in[i]
		}
	}
	if v == nil {
		return ""
	}
	return fmt.Sprint(v)
}

// interrupter is a standard output that asks the process to end at a line.
type interrupter struct {
	bytes.Buffer
	t     *testing.T
	lines int
}

func (i *interrupter) Write(p []byte) (int, error) {
	if i.lines++; i.lines == 20 {
		self, err := os.FindProcess(os.Getpid())
		if err == nil {
			err = self.Signal(syscall.SIGINT)
		}
		if err != nil {
			i.t.Skip(err) // a system without
		}
		time.Sleep(50 * time.Millisecond)
	}
	return i.Buffer.Write(p)
}

// Ctrl-C leaves whole rows, in order, and says how many; no chart of a part.
func TestTableInterrupted(t *testing.T) {
	chart := filepath.Join(t.TempDir(), "chart.svg")
	out := &interrupter{t: t}
	var stderr bytes.Buffer
	code := run([]string{"table", demo, "--vary", "bend.radius=300..600/0.01mm", "--csv", "--columns", "block.layers,feasible", "--svg", chart}, out, &stderr)
	if code != exitSignal+int(syscall.SIGINT) {
		t.Fatal(code, &stderr)
	}
	records, err := csv.NewReader(&out.Buffer).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	n := len(records) - 1
	if n < 19 || n > 2000 {
		t.Errorf("%d rows", n)
	}
	for i, r := range records[1:] {
		if want := quantity.Millimetres.String(); r[0] != strconv.FormatFloat(300+float64(i)/100, 'f', -1, 64)+" "+want {
			t.Fatalf("row %d is %q", i, r)
		}
	}
	if want := fmt.Sprintf("overbend: %d of 30001 rows are done, and whole: interrupt\n", n); stderr.String() != want {
		t.Errorf("%q, want %q", &stderr, want)
	}
	if exists(chart) {
		t.Error("a chart of a part")
	}
}

// The README's charts: the demo's force over the radius, and what decides it. Look at
// them when they change.
func TestChartGoldens(t *testing.T) {
	for name, args := range map[string][]string{
		"table.svg":       {"table", demo, "--vary", "bend.radius=200..600/10mm", "--vary", "tube.material=6082-T6,6061-T4,6060-T66", "--columns", "press.needed_force_N"},
		"sensitivity.svg": {"show", demo, "--sensitivity"},
	} {
		golden, path := "../../testdata/"+name, filepath.Join(t.TempDir(), name)
		if code := run(append(args, "--svg", path), io.Discard, os.Stderr); code != exitDone {
			t.Fatal(code)
		}
		got, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if *update {
			if err := os.WriteFile(golden, got, 0o666); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		sameText(t, name, string(got), string(want))
	}
}

// Every key of a job file that takes a number is read by its kind: the axis of a
// chart of it has the right unit.
func TestKindOfKey(t *testing.T) {
	for key, c := range map[string]struct {
		text string
		unit string
		want float64
	}{
		"tube.wall": {"3", "mm", 3}, "bend.angle": {"33", "deg", 0.5759586531581288}, "ends.cut[1]": {"-180 deg", "deg", -3.141592653589793},
		"press.friction": {"0.15", "", 0.15}, "material.proof": {"1 GPa", "MPa", 1000}, "press.capacity": {"2 kN", "kN", 2000},
		"material.elongation": {"8 %", "%", 0.08}, "allowance.degrees": {"180", "deg", 3.141592653589793}, "allowance.ratio": {"0.9", "", 0.9},
		"trial[0].travel": {"1 in", "mm", 25.4}, "trial[0].melted": {"180", "deg", 3.141592653589793}, "material.density": {"2700 kg/m3", "", 2700},
	} {
		kind, read := kindOfKey(key)
		v, err := read(c.text, quantity.Millimetres)
		if d := v - c.want; err != nil || d > 1e-12 || d < -1e-12 || quantity.Millimetres.Unit(kind) != c.unit {
			t.Errorf("%s: %v %s, %v", key, v, quantity.Millimetres.Unit(kind), err)
		}
	}
	// None that is no number has a kind by accident of the last word alone.
	for _, key := range job.Keys() {
		if kind, _ := kindOfKey(key); kind == quantity.Angle && !strings.Contains("bend.angle allowance.degrees ends.cut drawing.angle_tolerance trial.angle_error trial.loaded trial.loaded_error trial.filled trial.melted trial.released", key) {
			t.Errorf("%s is an angle", key)
		}
	}
}

func TestBar(t *testing.T) {
	for _, c := range []struct {
		done, of int
		since    time.Duration
		want     string
	}{
		{0, 10, 0, "[........................] 0 of 10"},
		{5, 10, 2 * time.Second, "[############............] 5 of 10, 2.5 a second, 2s left"},
		{1000, 4000, time.Second, "[######..................] 1000 of 4000, 1000 a second, 3s left"},
		{10, 10, time.Second, "[########################] 10 of 10, 10 a second, 0s left"},
	} {
		if got := bar(c.done, c.of, c.since); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// Jobs a second, and what lives on the way: the same for few rows and for many.
func BenchmarkTable(b *testing.B) {
	for _, n := range []int{10, 100, 2000} {
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			step := 300 / float64(n-1)
			args := []string{"table", demo, "--csv", "--vary", fmt.Sprintf("bend.radius=300..%v/%vmm", 300+step*(float64(n)-0.5), step)}
			for b.Loop() {
				if code := run(args, io.Discard, os.Stderr); code != exitDone {
					b.Fatal(code)
				}
			}
			b.ReportMetric(float64(n)*float64(b.N)/b.Elapsed().Seconds(), "jobs/s")
			b.StopTimer()
			var most uint64
			rows := 0
			run(args, writerFunc(func(p []byte) (int, error) {
				if rows++; rows%max(1, n/8) == 0 {
					var m runtime.MemStats
					runtime.GC()
					runtime.ReadMemStats(&m)
					most = max(most, m.HeapAlloc)
				}
				return len(p), nil
			}), os.Stderr)
			b.ReportMetric(float64(most)/(1<<20), "MB-live-most")
		})
	}
}

type writerFunc func([]byte) (int, error)

func (f writerFunc) Write(p []byte) (int, error) { return f(p) }

// The README's table of what decides the demo is what show prints.
func TestSensitivityInREADME(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	var shown bytes.Buffer
	if code := run([]string{"show", demo, "--sensitivity"}, &shown, io.Discard); code != exitDone {
		t.Fatal(code)
	}
	_, rows, _ := strings.Cut(shown.String(), "\n\ninput ")
	rows, _, found := strings.Cut("input "+rows, "\nfiller's")
	if text := "    " + strings.ReplaceAll(rows, "\n", "\n    ") + "\n"; !found || !strings.Contains(string(readme), text) {
		t.Errorf("the README has another:\n%s", text)
	}
}

// A wait that is short shows nothing; a long one says what for, and leaves an empty
// line behind.
func TestWaiting(t *testing.T) {
	var short, long bytes.Buffer
	waiting(&short, "fitting", time.Hour)()
	if short.Len() > 0 {
		t.Errorf("a short wait shows %q", short.String())
	}
	done := waiting(&long, "fitting", time.Millisecond)
	time.Sleep(250 * time.Millisecond)
	done()
	first, rest, _ := strings.Cut(strings.TrimPrefix(long.String(), "\r\r"), "\r")
	if !regexp.MustCompile(`^fitting, 0\.\d s$`).MatchString(first) || !regexp.MustCompile(`\r *\r$`).MatchString(rest) {
		t.Errorf("a long wait shows %q", long.String())
	}
}
