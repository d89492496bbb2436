package profiles

import (
	"encoding/csv"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The tables are plain CSV: the standard library reads the same fields out of
// them, and every row has a text for its source in the last column.
func TestTablesArePlainCSV(t *testing.T) {
	for name, table := range map[string]string{
		"materials.csv": materialsCSV, "tubes.csv": tubesCSV, "plates.csv": platesCSV, "strips.csv": stripsCSV,
		"fillers.csv": fillersCSV, "cautions.csv": cautionsCSV, "heat.csv": heatCSV, "hints.csv": hintsCSV, "gauges.csv": gaugesCSV, "sheets.csv": sheetsCSV, "intervals.csv": intervalsCSV,
	} {
		c := csv.NewReader(strings.NewReader(table))
		c.Comment = '#'
		want, err := c.ReadAll()
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		header := want[0]
		if header[len(header)-1] != "source" {
			t.Errorf("%s: last column %q, want source", name, header[len(header)-1])
		}
		i := 1
		for line := range lines(table) {
			r := read(name, line)
			for j, field := range want[i] {
				if got := r.text(); got != field {
					t.Errorf("%s row %d field %s: %q, want %q", name, i, header[j], got, field)
				}
			}
			r.end()
			if source := want[i][len(header)-1]; len(source) < 10 {
				t.Errorf("%s row %d: source %q", name, i, source)
			}
			i++
		}
		if i != len(want) {
			t.Errorf("%s: %d rows, want %d", name, i-1, len(want)-1)
		}
	}
}

func TestReaderNumbers(t *testing.T) {
	for _, row := range []struct {
		text string
		want float64
	}{
		{"", 0}, {"3", 3}, {"2.5", 2.5}, {"-0.0008", -0.0008}, {"1/8", 0.125}, {"1-1/2", 1.5}, {"2-3/16", 2.1875},
	} {
		if got := read("t", row.text+",x").number(); got != row.want {
			t.Errorf("%q: %g, want %g", row.text, got, row.want)
		}
	}
}

func TestReaderPanicsOnOurOwnBug(t *testing.T) {
	for name, bad := range map[string]func(){
		"too few":    func() { r := read("t", "a"); r.text(); r.text() },
		"too many":   func() { r := read("t", "a,b"); r.text(); r.end() },
		"open quote": func() { read("t", `"a,b`).text() },
		"after":      func() { read("t", `"a"b,c`).text() },
		"number":     func() { read("t", "1x").number() },
		"yes":        func() { read("t", "maybe").yes() },
		"inch":       func() { read("t", "cm").inch() },
	} {
		func() {
			defer func() {
				if s, ok := recover().(string); !ok || !strings.HasPrefix(s, "profiles: t: ") {
					t.Errorf("%s: recovered %q", name, s)
				}
			}()
			bad()
		}()
	}
}

func TestNamedIsSquash(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringMatching(`[A-Za-z0-9 /.-]{0,12}`).Draw(t, "name")
		if !named(name, squash(name)) {
			t.Fatalf("%q does not match its own squashed form %q", name, squash(name))
		}
		other := rapid.StringMatching(`[a-z0-9]{0,12}`).Draw(t, "other")
		if named(name, other) != (squash(name) == other) {
			t.Fatalf("%q against %q", name, other)
		}
	})
}

// Estimates of an alloy's yield follow the rule that its source states: as the
// tensile stress of the row, in proportion to 158's 26.2 and 41 MPa; where none
// is given, 158's own.
func TestYieldEstimates(t *testing.T) {
	c := csv.NewReader(strings.NewReader(fillersCSV))
	c.Comment = '#'
	rows, err := c.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	tensile := slices.Index(rows[0], "tensile")
	given := 0
	for i, f := range Fillers() {
		want := 26.2
		if s := rows[i+1][tensile]; s != "" {
			v, err := strconv.ParseFloat(s, 64)
			if err != nil {
				t.Fatal(err)
			}
			want *= v / 41
			given++
		}
		if math.Abs(f.Yield-want) > 0.06 {
			t.Errorf("%s: yield %g, the rule gives %.2f", f.Name, f.Yield, want)
		}
	}
	if given != 5 {
		t.Errorf("%d rows with a tensile stress", given)
	}
}

// No text of a table that is printed has a length, stress or temperature in it:
// such a number would not follow the reader's units.
func TestTextsHaveNoUnits(t *testing.T) {
	unit := regexp.MustCompile(`\d ?(mm|in|MPa|ksi|psi|kN|°C|°F|C|F)\b`)
	for _, f := range Fillers() {
		texts := []string{f.Use, f.MeltOutIn}
		for _, c := range f.Cautions() {
			texts = append(texts, c.About, c.Text)
		}
		for _, s := range texts {
			if m := unit.FindString(s); m != "" {
				t.Errorf("%s: %q in %q", f.Name, m, s)
			}
		}
	}
}
