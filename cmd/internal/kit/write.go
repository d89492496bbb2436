package kit

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
)

// ErrBusy is wrapped by an error of [Write] that says another run is writing
// into the same folder.
var ErrBusy = errors.New("another overbend is writing there; run again when it is done")

// errFirst says that the folder appeared while it was being made.
var errFirst = errors.New("made by another")

// Write puts the files into dir, which is made if need be: all of them or
// none, whatever goes wrong and even when the context ends. A file that is there
// already is replaced only if an earlier kit of the same job wrote it and nobody
// changed it since, or with force; an unchanged file of an earlier kit that this
// one no longer has is removed.
//
// What a run that was killed left behind is undone first. The notes say so, a
// sentence each, also beside an error.
func Write(ctx context.Context, dir string, files []File, force bool) (notes []string, err error) {
	w := writer{disk: system{}, ctx: ctx, dir: dir, files: files, force: force}
	err = w.write()
	return w.notes, err
}

// writer is one run of [Write].
type writer struct {
	disk  disk
	ctx   context.Context
	dir   string
	files []File
	force bool
	notes []string
}

func (w *writer) write() error {
	beside := w.beside()
	if _, err := w.disk.Lstat(beside); err == nil {
		s, err := w.enter(beside) // left behind, or at work
		if err != nil {
			return w.failed(err)
		}
		s.leave()
	}
	info, err := w.disk.Stat(w.dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err = w.fresh(beside); err != errFirst {
			return w.failed(err)
		}
	case err != nil:
		return w.failed(err)
	case !info.IsDir():
		return fmt.Errorf("%s: a file, not a folder; choose another with -o", w.dir)
	}
	return w.failed(w.into())
}

// beside returns the stage in which a new folder is made; of its name's digest,
// for the name itself may be as long as names can be.
func (w *writer) beside() string {
	return filepath.Join(filepath.Dir(filepath.Clean(w.dir)), stageName+"-"+digest([]byte(filepath.Base(w.dir)))[:16])
}

// fresh makes the folder with the files in it: they are written into one of
// another name beside it, which one rename then puts in place. Nothing is
// synced: a new folder takes no other's place, so that a power failure loses
// nothing that can't be made again.
func (w *writer) fresh(beside string) error {
	if _, err := w.disk.Lstat(w.dir); err == nil {
		return fmt.Errorf("%s: a link to nowhere, not a folder; choose another with -o", w.dir)
	}
	made, err := makeDir(w.disk, filepath.Dir(beside))
	if err != nil {
		return err
	}
	if err = w.stageAndRename(beside); err != nil && err != errFirst {
		for _, d := range made {
			w.disk.Remove(d) // only if still empty
		}
	}
	return err
}

func (w *writer) stageAndRename(beside string) error {
	s, err := w.enter(beside)
	if err != nil {
		return err
	}
	defer s.leave()
	var all []change
	for _, f := range w.files {
		all = append(all, change{Name: f.Name, data: f.Data})
	}
	if err := s.fill(all, false); err != nil {
		return err
	}
	if err := context.Cause(w.ctx); err != nil {
		return err
	}
	if _, err := w.disk.Lstat(w.dir); err == nil {
		return errFirst // a rename would replace it if it is empty
	}
	err = w.disk.Rename(s.in(newFiles), w.dir)
	if errors.Is(err, fs.ErrExist) {
		return errFirst
	}
	return err
}

// into replaces the kit in a folder that is there.
func (w *writer) into() error {
	s, err := w.enter(filepath.Join(w.dir, stageName))
	if err != nil {
		return err
	}
	defer s.leave()
	ours := readLedger(w.disk, w.dir)
	if job := w.job(); !w.force && ours.sums != nil && job != ours.job {
		return fmt.Errorf("%s: holds the kit of another job, %.60q; choose another folder with -o, or replace it with --force", w.dir, ours.job)
	}
	var put, drop []change
	for _, f := range w.files {
		c, err := w.check(f, ours.sums)
		if err != nil {
			return err
		}
		if c != nil {
			put = append(put, *c)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(ours.sums)) { // leftovers of the earlier kit
		if slices.ContainsFunc(w.files, func(f File) bool { return f.Name == name }) {
			continue
		}
		info, was, err := look(w.disk, filepath.Join(w.dir, name))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		if err == nil && info.Mode().IsRegular() && was == ours.sums[name] {
			drop = append(drop, change{Name: name, Existed: true})
		}
	}
	if len(put)+len(drop) == 0 {
		return nil
	}
	if err := s.fill(put, true); err != nil {
		return err
	}
	if err := context.Cause(w.ctx); err != nil {
		return err
	}
	return s.swap(append(put, drop...))
}

// job returns the name of the job whose files are to be written.
func (w *writer) job() string {
	for _, f := range w.files {
		if f.Name == Ledger {
			return parseLedger(f.Data).job
		}
	}
	return ""
}

// check says whether f may be written; nil is returned where the very same
// stands already.
func (w *writer) check(f File, ours map[string]string) (*change, error) {
	path := filepath.Join(w.dir, f.Name)
	c := &change{Name: f.Name, New: digest(f.Data), data: f.Data}
	info, was, err := look(w.disk, path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return c, nil
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s: in the way and not a plain file; move it or choose another folder with -o", path)
	case was == c.New:
		return nil, nil
	case w.force, was != "" && was == ours[f.Name]:
		c.Existed, c.mode = true, info.Mode().Perm()
		return c, nil
	}
	return nil, fmt.Errorf("%s: not written by overbend, or changed since; move it, choose another folder with -o, or replace it with --force", path)
}

// look returns what stands at a path and the digest of a plain file, "" for one
// that is larger than any of a kit.
func look(d disk, path string) (fs.FileInfo, string, error) {
	const most = 256 << 20 // bytes
	info, err := d.Lstat(path)
	if err != nil || !info.Mode().IsRegular() || info.Size() > most {
		return info, "", err
	}
	f, err := d.Open(path)
	if err != nil {
		return info, "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, io.LimitReader(f, most+1)); err != nil {
		return info, "", err
	}
	return info, hex.EncodeToString(h.Sum(nil)), nil
}

// makeDir makes dir, if it is not there, and returns the folders that it made,
// innermost first.
func makeDir(d disk, dir string) ([]string, error) {
	var missing []string
	for p := dir; ; p = filepath.Dir(p) {
		if _, err := d.Stat(p); err == nil || p == filepath.Dir(p) {
			break
		}
		missing = append(missing, p)
	}
	for i := len(missing) - 1; i >= 0; i-- {
		if err := d.Mkdir(missing[i]); err != nil && !errors.Is(err, fs.ErrExist) {
			for _, p := range missing[i+1:] {
				d.Remove(p)
			}
			return nil, err
		}
	}
	return missing, nil
}

// failed puts an operating system's error into one sentence about the folder.
// An error that is a sentence already stays as it is.
func (w *writer) failed(err error) error {
	if err == nil {
		return nil
	}
	if e := cause(err); e != err {
		return fmt.Errorf("%s: can't write there: %w", w.dir, e)
	}
	if err == ErrBusy || err == context.Cause(w.ctx) {
		return fmt.Errorf("%s: %w; nothing was written", w.dir, err)
	}
	return err
}

// cause strips the operation and the paths, which name our own folders, off an
// operating system's error.
func cause(err error) error {
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &path):
		return path.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}
