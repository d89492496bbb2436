package kit

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// kitOf returns files with these texts under names in order, and their ledger
// last, as make hands them to Write.
func kitOf(names ...string) []File {
	var files []File
	for _, n := range names {
		name, text, _ := strings.Cut(n, "=")
		files = append(files, File{Name: name, Data: []byte(text)})
	}
	return append(files, File{Name: Ledger, Data: ledgerOf(files)})
}

func ledgerOf(files []File) []byte {
	entries, err := json.Marshal(Entries(files))
	if err != nil {
		panic(err)
	}
	return Seal([]byte(`{"kit": {"files": ` + string(entries) + `, "seal": "` + NoSeal + `"}}`))
}

// write writes a kit as nobody interrupts it.
func write(dir string, files []File, force bool) error {
	_, err := Write(context.Background(), dir, files, force)
	return err
}

// stood returns what is below dir: texts of files, "/" for folders.
func stood(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || path == dir {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		switch {
		case d.IsDir():
			out[name] = "/"
		case d.Type()&fs.ModeSymlink != 0:
			out[name], err = os.Readlink(path)
		default:
			var data []byte
			data, err = os.ReadFile(path)
			out[name] = string(data)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// same fails unless dir holds exactly these files.
func sameFiles(t *testing.T, dir string, want map[string]string) {
	t.Helper()
	if got := stood(t, dir); !maps.Equal(got, want) {
		t.Errorf("%s holds %q, want %q", filepath.Base(dir), got, want)
	}
}

func put(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// A folder that is not there appears whole, or nothing does, not even the
// folders on the way to it.
func TestWriteFresh(t *testing.T) {
	root := t.TempDir()
	files := kitOf("a=1", "b=2")
	if err := write(filepath.Join(root, "on/the/way"), files, false); err != nil {
		t.Fatal(err)
	}
	want := map[string]string{"on": "/", "on/the": "/", "on/the/way": "/", "on/the/way/a": "1", "on/the/way/b": "2", "on/the/way/job.json": string(files[2].Data)}
	sameFiles(t, root, want)

	// A file that can't be written: it lies in a folder that is not there.
	bad := append(kitOf("a=1"), File{Name: "missing/c"})
	for _, dir := range []string{"other", "new/below/it", "on/the/other"} {
		if err := write(filepath.Join(root, dir), bad, true); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("%s: %v", dir, err)
		}
		sameFiles(t, root, want)
	}
}

// When the third of four renames fails, the first two are undone: what was
// there is there again, with its mode, and what was new is gone.
func TestWriteUndoes(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "a"), "mine")
	put(t, filepath.Join(dir, "notes"), "mine too")
	if err := os.Chmod(filepath.Join(dir, "a"), 0o640); err != nil {
		t.Fatal(err)
	}
	before := stood(t, dir)
	files := []File{{Name: "a", Data: []byte("theirs")}, {Name: "b", Data: []byte("new")}, {Name: "missing/c"}, {Name: "d"}}
	err := write(dir, files, true)
	if !errors.Is(err, fs.ErrNotExist) || strings.Contains(err.Error(), "\n") {
		t.Errorf("got %v", err)
	}
	sameFiles(t, dir, before)
	if info, err := os.Stat(filepath.Join(dir, "a")); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
}

// What may and what may not be replaced.
func TestWriteInto(t *testing.T) {
	old := kitOf("a=1", "b=2", "gone=3")
	next := kitOf("a=1", "b=22")
	ours := map[string]string{"a": "1", "b": "2", "gone": "3", Ledger: string(old[3].Data)}
	after := map[string]string{"a": "1", "b": "22", Ledger: string(next[2].Data)}
	with := func(m map[string]string, name, text string) map[string]string {
		m = maps.Clone(m)
		m[name] = text
		return m
	}
	for _, c := range []struct {
		name   string
		there  map[string]string
		force  bool
		refuse string // what the error says; "" when it is written
		want   map[string]string
	}{
		{"nothing", nil, false, "", after},
		{"an earlier kit", ours, false, "", after},
		{"the same kit", after, false, "", after},
		{"a stranger beside it", with(ours, "x", "mine"), false, "", with(after, "x", "mine")},
		{"a stranger in place", map[string]string{"b": "mine"}, false, "b: not written by overbend", nil},
		{"a stranger, by force", map[string]string{"b": "mine"}, true, "", after},
		{"a file changed since", with(ours, "b", "mine"), false, "b: not written by overbend, or changed since", nil},
		{"a leftover changed since stays", with(ours, "gone", "mine"), false, "", with(after, "gone", "mine")},
		{"a ledger changed since", with(ours, Ledger, strings.Replace(string(old[3].Data), `"gone"`, `"x"`, 1)), false, "not written by overbend", nil},
		{"a ledger that is none", with(ours, Ledger, "{}"), false, "not written by overbend", nil},
		{"no ledger, but the same bytes", map[string]string{"a": "1", "b": "22"}, false, "", after},
		{"cut short before its ledger", with(with(ours, "b", "22"), "gone", "3"), false, "", after},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			for name, text := range c.there {
				put(t, filepath.Join(dir, name), text)
			}
			err := write(dir, next, c.force)
			switch {
			case c.refuse == "" && err != nil:
				t.Fatal(err)
			case c.refuse != "":
				if err == nil || !strings.Contains(err.Error(), c.refuse) {
					t.Errorf("got %v, want %q", err, c.refuse)
				}
				c.want = c.there
			}
			sameFiles(t, dir, c.want)
		})
	}
}

// Folders, links and other things in the way are never replaced or followed.
func TestWriteInTheWay(t *testing.T) {
	outside := t.TempDir()
	put(t, filepath.Join(outside, "mine"), "mine")
	for _, c := range []struct {
		name string
		make func(path string) error
	}{
		{"a folder", func(path string) error { return os.Mkdir(path, 0o755) }},
		{"a link to a file", func(path string) error { return os.Symlink(filepath.Join(outside, "mine"), path) }},
		{"a link to nowhere", func(path string) error { return os.Symlink(filepath.Join(outside, "none"), path) }},
		{"a link to a folder", func(path string) error { return os.Symlink(outside, path) }},
	} {
		for _, force := range []bool{false, true} {
			t.Run(fmt.Sprintf("%s, force %v", c.name, force), func(t *testing.T) {
				dir := t.TempDir()
				if err := c.make(filepath.Join(dir, "b")); err != nil {
					t.Skip(err) // a system without links
				}
				before := stood(t, dir)
				if err := write(dir, kitOf("a=1", "b=2"), force); err == nil || !strings.Contains(err.Error(), "in the way and not a plain file") {
					t.Errorf("got %v", err)
				}
				sameFiles(t, dir, before)
				sameFiles(t, outside, map[string]string{"mine": "mine"})
			})
		}
	}

	// A link to a folder is a folder like another; one to nowhere is none.
	root := t.TempDir()
	if err := os.Mkdir(filepath.Join(root, "real"), 0o755); err != nil {
		t.Fatal(err)
	}
	for link, to := range map[string]string{"link": "real", "dangling": "none"} {
		if err := os.Symlink(to, filepath.Join(root, link)); err != nil {
			t.Skip(err)
		}
	}
	files := kitOf("a=1")
	if err := write(filepath.Join(root, "link"), files, false); err != nil {
		t.Error(err)
	}
	sameFiles(t, filepath.Join(root, "real"), map[string]string{"a": "1", Ledger: string(files[1].Data)})
	if err := write(filepath.Join(root, "dangling"), files, true); err == nil {
		t.Error("a link to nowhere became a folder")
	}
	if got, err := os.Readlink(filepath.Join(root, "dangling")); err != nil || got != "none" {
		t.Errorf("the link is now %q, %v", got, err)
	}
}

// A folder without leave to write stays as it is.
func TestWriteLocked(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("root may write anywhere")
	}
	dir := t.TempDir()
	put(t, filepath.Join(dir, "mine"), "mine")
	if err := os.Chmod(dir, 0o555); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(dir, 0o755)
	for _, to := range []string{dir, filepath.Join(dir, "kit"), filepath.Join(dir, "below/kit")} {
		if err := write(to, kitOf("a=1"), true); !errors.Is(err, fs.ErrPermission) {
			t.Errorf("%s: %v", to, err)
		}
	}
	sameFiles(t, dir, map[string]string{"mine": "mine"})
}

// A ledger can be sealed by anyone who reads this source. One that names files
// elsewhere must not get them removed.
func TestLedgerNamesElsewhere(t *testing.T) {
	root := t.TempDir()
	dir := filepath.Join(root, "kit")
	if err := os.MkdirAll(filepath.Join(dir, "sub"), 0o755); err != nil {
		t.Fatal(err)
	}
	sum := digest([]byte("mine"))
	var entries []string
	for _, name := range []string{"../x", "sub/x", filepath.Join(root, "x"), "..", ".", "", "sub", "../kit/here"} {
		entries = append(entries, fmt.Sprintf(`{"name": %q, "sha256": %q}`, name, sum))
	}
	for _, path := range []string{filepath.Join(root, "x"), filepath.Join(dir, "sub", "x"), filepath.Join(dir, "here")} {
		put(t, path, "mine")
	}
	ledger := Seal([]byte(`{"kit": {"files": [` + strings.Join(entries, ",") + `], "seal": "` + NoSeal + `"}}`))
	put(t, filepath.Join(dir, Ledger), string(ledger))
	files := kitOf("a=1")
	if err := write(dir, files, false); err != nil {
		t.Fatal(err)
	}
	sameFiles(t, root, map[string]string{
		"x": "mine", "kit": "/", "kit/sub": "/", "kit/sub/x": "mine", "kit/here": "mine", "kit/a": "1", "kit/job.json": string(files[1].Data),
	})
}

// No byte of a ledger can be changed, and none taken off or added.
func TestSeal(t *testing.T) {
	good := ledgerOf([]File{{Name: "a", Data: []byte("1")}})
	if !sealed(good) {
		t.Fatal("not sealed")
	}
	for i := range good {
		bad := bytes.Clone(good)
		bad[i] ^= 1
		if sealed(bad) {
			t.Errorf("still sealed with byte %d changed: %s", i, bad)
		}
		if sealed(good[:i]) || sealed(good[i+1:]) {
			t.Errorf("still sealed when cut at %d", i)
		}
	}
	if sealed(append(bytes.Clone(good), ' ')) || sealed(nil) {
		t.Error("sealed with more, or with nothing")
	}
}

// Whatever stands in a ledger's place, only plain names come out of it.
func FuzzLedger(f *testing.F) {
	f.Add(ledgerOf([]File{{Name: "a"}}))
	f.Add([]byte(`{"kit": {"files": [{"name": "../x", "sha256": ""}], "seal": "` + NoSeal + `"}}`))
	f.Add([]byte(`"seal": "`))
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, text []byte) {
		if sealPlace(text) >= 0 {
			text = Seal(text) // else next to nothing gets past the seal
		}
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, Ledger), text, 0o644); err != nil {
			t.Fatal(err)
		}
		for name := range readLedger(system{}, dir).sums {
			if filepath.Base(name) != name {
				t.Errorf("the name %q", name)
			}
		}
	})
}

// A run into a folder in which another is at work writes nothing and says so; so
// does one that would make a folder which another is making.
func TestWriteBusy(t *testing.T) {
	root := t.TempDir()
	dir := filepath.Join(root, "kit")
	for _, there := range []bool{false, true} {
		w := writer{disk: system{}, ctx: context.Background(), dir: dir}
		path := filepath.Join(dir, stageName)
		if !there {
			path = w.beside()
		}
		s, err := w.enter(path)
		if err != nil {
			t.Fatal(err)
		}
		before := stood(t, root)
		if err := write(dir, kitOf("a=1"), true); !errors.Is(err, ErrBusy) || !strings.HasSuffix(err.Error(), "kit: another overbend is writing there; run again when it is done; nothing was written") {
			t.Errorf("got %v", err)
		}
		sameFiles(t, root, before)
		s.leave()
		if err := write(dir, kitOf("a=1"), true); err != nil {
			t.Error(err)
		}
	}
}

// A file that is replaced keeps who may read it, and a new one gets what the
// user's mask says.
func TestWriteKeepsMode(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "kit")
	if err := write(dir, kitOf("a=1", "b=1"), false); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(filepath.Join(dir, "a"), 0o640); err != nil {
		t.Fatal(err)
	}
	if err := write(dir, kitOf("a=2", "b=2", "c=2"), false); err != nil {
		t.Fatal(err)
	}
	mode := func(name string) fs.FileMode {
		info, err := os.Stat(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		return info.Mode()
	}
	if mode("a") != 0o640 || mode("c") != mode("b") {
		t.Errorf("modes %v, %v, %v", mode("a"), mode("b"), mode("c"))
	}
}
