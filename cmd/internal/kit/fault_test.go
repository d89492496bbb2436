package kit

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
)

// faulty is a disk on which operations fail: the n-th only, or all from the n-th
// on, as when the process is killed there or the disk goes away. A failing write
// leaves half of its data. Everything counts, reading and syncing too.
type faulty struct {
	system
	fail  int // from 1; 0: never
	again int // another that fails
	on    bool
	err   error
	count func(n int) // told of each operation
	mu    sync.Mutex
	n     int
	ops   []string
	fired string // the first operation that failed
}

func (d *faulty) op(name, path string) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.n++
	d.ops = append(d.ops, name+" "+path)
	if d.count != nil {
		d.count(d.n)
	}
	if d.fail > 0 && (d.n == d.fail || d.n == d.again || d.on && d.n > d.fail) {
		if d.fired == "" {
			d.fired = fmt.Sprintf("%s %s", name, filepath.Base(path))
		}
		return &fs.PathError{Op: name, Path: path, Err: d.err}
	}
	return nil
}

// dead reports whether even letting go of a lock has no effect any more.
func (d *faulty) dead() bool { return d.on && d.fail > 0 && d.n >= d.fail }

func (d *faulty) Stat(path string) (fs.FileInfo, error) {
	return second(d.op("stat", path), func() (fs.FileInfo, error) { return d.system.Stat(path) })
}

func (d *faulty) Lstat(path string) (fs.FileInfo, error) {
	return second(d.op("lstat", path), func() (fs.FileInfo, error) { return d.system.Lstat(path) })
}

func (d *faulty) ReadDir(path string) ([]fs.DirEntry, error) {
	return second(d.op("readdir", path), func() ([]fs.DirEntry, error) { return d.system.ReadDir(path) })
}

func (d *faulty) Open(path string) (io.ReadCloser, error) {
	return second(d.op("open", path), func() (io.ReadCloser, error) {
		f, err := d.system.Open(path)
		return &faultyReader{f, d, path}, err
	})
}

func (d *faulty) Create(path string) (diskFile, error) {
	return second(d.op("create", path), func() (diskFile, error) {
		f, err := d.system.Create(path)
		return &faultyFile{f, d, path}, err
	})
}

func (d *faulty) Mkdir(path string) error {
	return first(d.op("mkdir", path), func() error { return d.system.Mkdir(path) })
}

func (d *faulty) Chmod(path string, mode fs.FileMode) error {
	return first(d.op("chmod", path), func() error { return d.system.Chmod(path, mode) })
}

func (d *faulty) Rename(from, to string) error {
	return first(d.op("rename", from+" "+to), func() error { return d.system.Rename(from, to) })
}

func (d *faulty) Remove(path string) error {
	return first(d.op("remove", path), func() error { return d.system.Remove(path) })
}

func (d *faulty) SyncDir(path string) error {
	return d.op("syncdir", path)
}

func (d *faulty) Lock(path string) (func(), bool, error) {
	if err := d.op("lock", path); err != nil {
		return nil, false, err
	}
	unlock, ok, err := d.system.Lock(path)
	return func() {
		if d.dead() { // the system lets go of it, but nobody removes the file
			unlock()
			os.WriteFile(path, nil, 0o666)
			return
		}
		unlock()
	}, ok, err
}

type faultyFile struct {
	diskFile
	disk *faulty
	path string
}

func (f *faultyFile) Write(data []byte) (int, error) {
	if err := f.disk.op("write", f.path); err != nil {
		n, _ := f.diskFile.Write(data[:len(data)/2])
		return n, err
	}
	return f.diskFile.Write(data)
}

func (f *faultyFile) Sync() error {
	return f.disk.op("sync", f.path) // no test waits for a real disk
}

func (f *faultyFile) Close() error { // the file is closed all the same
	err := f.diskFile.Close()
	return errors.Join(f.disk.op("close", f.path), err)
}

type faultyReader struct {
	io.ReadCloser
	disk *faulty
	path string
}

func (f *faultyReader) Read(p []byte) (int, error) {
	return second(f.disk.op("read", f.path), func() (int, error) { return f.ReadCloser.Read(p) })
}

func first(err error, then func() error) error {
	if err != nil {
		return err
	}
	return then()
}

func second[T any](err error, then func() (T, error)) (T, error) {
	if err != nil {
		var none T
		return none, err
	}
	return then()
}

// situations are what a run may find, and what it is to leave. Every one has a
// stranger's file in it where it has a folder.
func situations() []struct {
	name  string
	there map[string]string // nil: no folder
	next  []File
} {
	old := kitOf("a=1", "b=2", "gone=3", "same=4")
	there := map[string]string{"notes": "mine"}
	for _, f := range old {
		there[f.Name] = string(f.Data)
	}
	next := kitOf("a=11", "b=22", "new=5", "same=4")
	return []struct {
		name  string
		there map[string]string
		next  []File
	}{
		{"fresh", nil, next},
		{"a folder without a kit", map[string]string{"notes": "mine"}, next},
		{"another kit", there, next},
		{"the same kit", there, old},
	}
}

// whole returns what a folder holds after the files have been written to it.
func whole(there map[string]string, files []File) map[string]string {
	out := map[string]string{}
	ours := parseLedger([]byte(there[Ledger])).sums
	for name, text := range there {
		if _, ok := ours[name]; !ok {
			out[name] = text
		}
	}
	for _, f := range files {
		out[f.Name] = string(f.Data)
	}
	return out
}

// layDown makes a folder, or none, and returns its path.
func layDown(t *testing.T, root string, there map[string]string) string {
	t.Helper()
	dir := filepath.Join(root, "on", "kit")
	if there != nil {
		if err := os.MkdirAll(dir, 0o755); err != nil {
			t.Fatal(err)
		}
		for name, text := range there {
			put(t, filepath.Join(dir, name), text)
		}
	}
	return dir
}

// kitIn returns what stands in dir but for a stage; nil for no folder.
func kitIn(t *testing.T, dir string) map[string]string {
	t.Helper()
	if _, err := os.Lstat(dir); err != nil {
		return nil
	}
	got := stood(t, dir)
	maps.DeleteFunc(got, func(name, _ string) bool { return strings.HasPrefix(name, stageName) })
	return got
}

// When any one operation fails, the folder is the old kit or the new one, whole,
// at once and as the error says; the next run leaves the new one and nothing
// besides.
func TestEveryFault(t *testing.T) {
	for i, errno := range []error{syscall.EIO, syscall.ENOSPC, syscall.EPERM} {
		for _, c := range situations() {
			if i > 0 && c.name != "another kit" {
				continue // which error it is makes no difference
			}
			after, n := whole(c.there, c.next), 1
			for ; ; n++ {
				root := t.TempDir()
				dir := layDown(t, root, c.there)
				d := &faulty{fail: n, err: errno}
				w := writer{disk: d, ctx: context.Background(), dir: dir, files: c.next}
				err := w.write()
				if d.fired == "" {
					break
				}
				what := fmt.Sprintf("%s, %v at operation %d (%s): %v", c.name, errno, n, d.fired, err)
				want := after
				if op, _, _ := strings.Cut(d.fired, " "); err == nil && strings.Contains("create write sync syncdir rename chmod lock", op) {
					t.Errorf("%s: not said", what)
				}
				if err != nil {
					want = c.there
					if strings.Contains(err.Error(), stageName) || strings.Contains(err.Error(), "\n") {
						t.Errorf("%s: names our own folder", what)
					}
				}
				if got := kitIn(t, dir); !maps.Equal(got, want) {
					t.Fatalf("%s: holds %q, want %q", what, got, want)
				}
				healed(t, what, root, dir, c.next, after)
			}
			if n < 15 {
				t.Errorf("%s: only %d operations", c.name, n)
			}
			t.Logf("%s: %d operations", c.name, n-1)
		}
	}
}

// healed fails unless a run on a sound disk leaves the kit and nothing besides.
func healed(t *testing.T, what, root, dir string, files []File, after map[string]string) {
	t.Helper()
	w := writer{disk: &faulty{}, ctx: context.Background(), dir: dir, files: files}
	if err := w.write(); err != nil {
		t.Fatalf("%s: the next run: %v", what, err)
	}
	if got := stood(t, dir); !maps.Equal(got, after) {
		t.Fatalf("%s: the next run leaves %q, want %q", what, got, after)
	}
	if list, err := os.ReadDir(filepath.Join(root, "on")); err != nil || len(list) != 1 {
		t.Fatalf("%s: beside the kit: %v, %v", what, list, err)
	}
}

// When the run is killed before any operation, or the disk goes away, the next
// run leaves a whole kit, its own or what was there, and says what it found if
// anything was left. So does the one after a run that was itself killed while it
// put things back.
func TestEveryDeath(t *testing.T) {
	for _, c := range situations() {
		after := whole(c.there, c.next)
		for n := 1; ; n++ {
			root := t.TempDir()
			dir := layDown(t, root, c.there)
			d := &faulty{fail: n, on: true, err: syscall.EIO}
			w := writer{disk: d, ctx: context.Background(), dir: dir, files: c.next}
			err := w.write()
			if d.fired == "" {
				break
			}
			what := fmt.Sprintf("%s, dead at operation %d (%s): %v", c.name, n, d.fired, err)
			if c.there == nil {
				if got := kitIn(t, dir); got != nil && !maps.Equal(got, after) {
					t.Fatalf("%s: holds %q", what, got)
				}
			}
			died := snapshot(t, root)
			_, halfway := died["on/kit/"+stageName+"/"+undoFile]
			healed(t, what, root, dir, c.next, after)
			for m := 1 + n%4; halfway && m < 60; m += 4 { // the second run dies while it puts things back
				restore(t, root, died)
				d := &faulty{fail: m, on: true, err: syscall.EIO}
				w := writer{disk: d, ctx: context.Background(), dir: dir, files: c.next}
				w.write()
				if d.fired == "" {
					break
				}
				healed(t, fmt.Sprintf("%s; then dead at %d (%s)", what, m, d.fired), root, dir, c.next, after)
			}

			// A next run that is refused puts back what was there and says so.
			restore(t, root, died)
			if c.there != nil && c.there[Ledger] != "" {
				_, committed := stood(t, dir)[stageName+"/"+undoFile]
				notes, err := Write(context.Background(), dir, []File{{Name: "notes", Data: []byte("theirs")}}, false)
				if err == nil || !strings.Contains(err.Error(), "notes: not written by overbend") {
					t.Fatalf("%s: then %v", what, err)
				}
				if got := stood(t, dir); !maps.Equal(got, c.there) && !maps.Equal(got, after) {
					t.Fatalf("%s: a refused run leaves %q", what, got)
				}
				if committed != (len(notes) == 1 && strings.Contains(notes[0], "what stood there before was put back")) {
					t.Errorf("%s: notes %q", what, notes)
				}
			}
		}
	}
}

// snapshot and restore keep a tree of small files.
func snapshot(t *testing.T, root string) map[string]string { return stood(t, root) }

func restore(t *testing.T, root string, m map[string]string) {
	t.Helper()
	list, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range list {
		if err := os.RemoveAll(filepath.Join(root, e.Name())); err != nil {
			t.Fatal(err)
		}
	}
	for name, text := range m {
		path := filepath.Join(root, name)
		if text == "/" {
			if err := os.MkdirAll(path, 0o755); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		put(t, path, text)
	}
}

// When the context ends during any operation the folder is the old kit or the new
// one, whole, nothing is left besides, and an error says which.
func TestEveryInterruption(t *testing.T) {
	stop := errors.New("interrupted")
	for _, c := range situations() {
		after, refused := whole(c.there, c.next), 0
		for n := 1; ; n++ {
			root := t.TempDir()
			dir := layDown(t, root, c.there)
			ctx, cancel := context.WithCancelCause(context.Background())
			d := &faulty{count: func(k int) {
				if k == n {
					cancel(stop)
				}
			}}
			w := writer{disk: d, ctx: ctx, dir: dir, files: c.next}
			err := w.write()
			if ctx.Err() == nil {
				break
			}
			want := after
			if err != nil {
				refused++
				want = c.there
				if !errors.Is(err, stop) || !strings.HasSuffix(err.Error(), "kit: interrupted; nothing was written") {
					t.Errorf("%v", err)
				}
			}
			if got := kitIn(t, dir); !maps.Equal(got, want) {
				t.Fatalf("%s, ended in operation %d: holds %q, want %q", c.name, n, got, want)
			}
			left := map[string]string{}
			if list, err := os.ReadDir(filepath.Join(root, "on")); err == nil {
				for _, e := range list {
					left[e.Name()] = ""
				}
			}
			delete(left, "kit")
			if len(left) > 0 {
				t.Errorf("%s, ended in operation %d: left %v", c.name, n, left)
			}
		}
		if c.name != "the same kit" && refused < 10 {
			t.Errorf("%s: only %d were heeded", c.name, refused)
		}
	}
}

// What must be safe from a power failure is synced before anything relies on it:
// each new file and the undo file before the first old file is touched, the
// folder before the undo file goes.
func TestSyncedInOrder(t *testing.T) {
	c := situations()[2]
	dir := layDown(t, t.TempDir(), c.there)
	d := &faulty{}
	w := writer{disk: d, ctx: context.Background(), dir: dir, files: c.next}
	if err := w.write(); err != nil {
		t.Fatal(err)
	}
	stage := filepath.Join(dir, stageName)
	place := func(op, path string) int {
		t.Helper()
		for i, o := range d.ops {
			if o == op+" "+path {
				return i
			}
		}
		t.Fatalf("no %s %s in %q", op, path, d.ops)
		return 0
	}
	touched := place("rename", filepath.Join(dir, "a")+" "+filepath.Join(stage, oldFiles, "a"))
	counts := place("rename", filepath.Join(stage, undoDraft)+" "+filepath.Join(stage, undoFile))
	for _, name := range []string{"a", "b", "new", Ledger} {
		if at := place("sync", filepath.Join(stage, newFiles, name)); at > counts {
			t.Errorf("%s is synced at %d, the undo file counts from %d", name, at, counts)
		}
	}
	order := []int{
		place("syncdir", filepath.Join(stage, newFiles)), place("sync", filepath.Join(stage, undoDraft)), counts, place("syncdir", stage), touched,
		place("rename", filepath.Join(dir, "gone")+" "+filepath.Join(stage, oldFiles, "gone")), place("syncdir", dir), place("remove", filepath.Join(stage, undoFile)),
	}
	order[0], order[1] = min(order[0], order[1]), max(order[0], order[1])
	for i := range order[1:] {
		if order[i] >= order[i+1] {
			t.Errorf("out of order: %v in %q", order, d.ops)
		}
	}
}

// When putting things back fails too, what the next run needs is left to it.
func TestFaultWhilePuttingBack(t *testing.T) {
	c := situations()[2]
	after, unhealed := whole(c.there, c.next), 0
	for n := 50; ; n++ {
		for m := n + 1; m < n+24; m += 2 + n%3 {
			root := t.TempDir()
			dir := layDown(t, root, c.there)
			d := &faulty{fail: n, again: m, err: syscall.EIO}
			w := writer{disk: d, ctx: context.Background(), dir: dir, files: c.next}
			err := w.write()
			if d.fired == "" {
				if unhealed < 10 {
					t.Errorf("only %d were left to the next run", unhealed)
				}
				return
			}
			what := fmt.Sprintf("operations %d and %d (%s): %v", n, m, d.fired, err)
			if err != nil && strings.HasSuffix(err.Error(), "what stood there could not be put back now, but the next run into it will") {
				_, stands := stood(t, dir)[stageName+"/"+undoFile]
				if stands {
					unhealed++
				}
				notes, err := Write(context.Background(), dir, []File{{Name: "notes", Data: []byte("theirs")}}, false)
				if err == nil || (len(notes) == 1) != stands {
					t.Errorf("%s: then %v, %v", what, notes, err)
				}
				if got := stood(t, dir); !maps.Equal(got, c.there) {
					t.Fatalf("%s: the next run leaves %q", what, got)
				}
			}
			healed(t, what, root, dir, c.next, after)
		}
	}
}

// What somebody put in a file's place after a run was cut short is never taken:
// it stays, or the next run stops before it.
func TestUndoLeavesStrangers(t *testing.T) {
	for _, c := range []struct {
		name, undo string
		old        bool
		stops      bool
	}{
		{"in an old one's place", `[{"name": "a", "existed": true, "new": "0000"}]`, true, true},
		{"in a removed one's place", `[{"name": "a", "existed": true, "new": ""}]`, true, true},
		{"in a new one's place", `[{"name": "a", "existed": false, "new": "0000"}]`, false, false},
		{"elsewhere", `[{"name": "../kit/a", "existed": false, "new": "` + digest([]byte("mine")) + `"}]`, false, true},
	} {
		dir := filepath.Join(t.TempDir(), "kit")
		if err := os.MkdirAll(filepath.Join(dir, stageName, oldFiles), 0o755); err != nil {
			t.Fatal(err)
		}
		put(t, filepath.Join(dir, "a"), "mine")
		put(t, filepath.Join(dir, stageName, undoFile), c.undo)
		if c.old {
			put(t, filepath.Join(dir, stageName, oldFiles, "a"), "old")
		}
		err := write(dir, kitOf("b=2"), true)
		if (err != nil) != c.stops {
			t.Errorf("%s: %v", c.name, err)
		}
		got := stood(t, dir)
		if got["a"] != "mine" || c.old && got[stageName+"/"+oldFiles+"/a"] != "old" {
			t.Errorf("%s: %v left %q", c.name, err, got)
		}
	}
}
