package pdf

import (
	"bytes"
	"strconv"
	"strings"
	"testing"

	"codeberg.org/go-pdf/fpdf"
)

// plain returns what fpdf writes by itself.
func plain(t testing.TB) []byte {
	t.Helper()
	f := fpdf.New("P", "mm", "A4", "")
	f.SetCompression(false)
	f.SetCreationDate(date())
	f.SetModificationDate(date())
	f.AddPage()
	f.Line(10, 10, 110, 10)
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The rules of an incremental update: the old bytes first, every offset in the
// new section is where it says, the trailer points back.
func TestAsIs(t *testing.T) {
	old := plain(t)
	got, err := asIs(old)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.HasPrefix(got, old) {
		t.Fatal("the old bytes are not kept")
	}
	lines := strings.Split(string(got[len(old):]), "\n")
	find := func(line string) int {
		t.Helper()
		for i, l := range lines {
			if l == line {
				return i
			}
		}
		t.Fatalf("no line %q in the update", line)
		return 0
	}
	number := func(s string) int {
		t.Helper()
		n, err := strconv.Atoi(s)
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	find("/ViewerPreferences <</PrintScaling /None>>")
	find("/Version /1.6")
	find("/Type /Catalog")
	find("/Pages 1 0 R")

	start := number(lines[find("startxref")+1])
	if !bytes.HasPrefix(got[start:], []byte("xref\n")) {
		t.Error("startxref is off")
	}
	entry := lines[find("xref")+2]
	if len(entry) != 19 || !strings.HasSuffix(entry, " 00000 n ") {
		t.Fatalf("entry %q is not 20 bytes with its line end", entry)
	}
	root := strings.Fields(lines[find("xref")+1])[0]
	if !bytes.HasPrefix(got[number(entry[:10]):], []byte(root+" 0 obj\n<<\n/Type /Catalog")) {
		t.Error("the catalog is not where its entry says")
	}
	find("/Root " + root + " 0 R")
	for _, l := range lines {
		if p, ok := strings.CutPrefix(l, "/Prev "); ok {
			if !bytes.HasPrefix(old[number(p):], []byte("xref\n0 ")) {
				t.Error("the trailer does not point back to the old table")
			}
		}
	}
	if !bytes.HasSuffix(got, []byte("%%EOF\n")) {
		t.Error("no end mark")
	}
}

func TestAsIsRefuses(t *testing.T) {
	good := string(plain(t))
	for name, bad := range map[string]string{
		"nothing":      "",
		"no table":     strings.Replace(good, "xref\n0 ", "yref\n0 ", 1),
		"wild start":   good[:strings.LastIndex(good, "startxref")] + "startxref\n99999999999999999999\n%%EOF\n",
		"start past":   good[:strings.LastIndex(good, "startxref")] + "startxref\n99999999\n%%EOF\n",
		"no root":      strings.Replace(good, "/Root ", "/Toor ", 1),
		"root past":    strings.Replace(good, "/Root ", "/Root 9", 1),
		"no size":      strings.Replace(good, "/Size ", "/Ezis ", 1),
		"no info":      strings.Replace(good, "/Info ", "/Ofni ", 1),
		"no catalog":   strings.Replace(good, "/Type /Catalog\n", "/Type /Katalog\n", 1),
		"moved":        strings.Replace(good, "/Type /Catalog\n", "/Type /Catalog\n\n", 1),
		"before table": strings.Replace(good, "1 0 obj", "11 0 obj", 1),
	} {
		if _, err := asIs([]byte(bad)); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func FuzzAsIs(f *testing.F) {
	f.Add(plain(f))
	f.Add([]byte("xref\n0 1\n/Size 9 /Root 1 /Info 1 startxref\n0\n"))
	f.Fuzz(func(t *testing.T, b []byte) {
		got, err := asIs(b)
		if err == nil && !bytes.HasPrefix(got, b) {
			t.Error("the old bytes are not kept")
		}
	})
}
