package kit

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
)

// stageName is the folder in which a run works, within the kit's folder, so that
// it is on the same disk, or beside one that is still to be made. It holds:
const (
	stageName = ".overbend"
	lockFile  = "lock"     // locked while a run is at work
	newFiles  = "new"      // the files to be put in place, under their own names
	oldFiles  = "old"      // those that they replace
	undoFile  = "undo"     // what to put back; while it stands, nothing counts as replaced
	undoDraft = "undo.tmp" // the same before it counts
)

// stage is that folder, locked.
type stage struct {
	disk   disk
	dir    string // of the kit
	path   string // its own
	unlock func()
}

// change is a file to be put in place, or to be removed. The exported fields are
// the lines of the undo file.
type change struct {
	Name    string `json:"name"`
	Existed bool   `json:"existed"` // something stands in its place
	New     string `json:"new"`     // digest of what comes there; "" for nothing
	data    []byte
	mode    fs.FileMode // of what stands there
}

// in returns a path within the stage.
func (s *stage) in(names ...string) string {
	return filepath.Join(append([]string{s.path}, names...)...)
}

// enter makes the stage and locks it. What an earlier run left there is undone
// and noted.
func (w *writer) enter(path string) (*stage, error) {
	s := &stage{disk: w.disk, dir: w.dir, path: path}
	inTheWay := fmt.Errorf("%s: in the way, and not what overbend leaves there; move it or choose another folder with -o", path)
	err := w.disk.Mkdir(path)
	if errors.Is(err, fs.ErrExist) {
		var info fs.FileInfo
		if info, err = w.disk.Lstat(path); err == nil && !info.IsDir() {
			return nil, inTheWay
		}
	}
	if err != nil {
		return nil, err
	}
	unlock, ok, err := w.disk.Lock(s.in(lockFile))
	if err == nil && !ok || errors.Is(err, fs.ErrNotExist) { // or removed by who had it
		return nil, ErrBusy
	}
	if err != nil {
		w.disk.Remove(path) // only if nothing is in it
		return nil, err
	}
	s.unlock = unlock
	left := 0
	list, err := w.disk.ReadDir(path)
	for _, e := range list {
		switch e.Name() {
		case lockFile:
		case newFiles, oldFiles, undoFile, undoDraft:
			left++
		default:
			err = inTheWay
		}
	}
	var undone bool
	if err == nil {
		undone, err = s.undo()
	}
	if err == nil && left > 0 {
		err = s.clear()
	}
	if err != nil {
		s.unlock()
		w.disk.Remove(path)
		return nil, err
	}
	switch {
	case undone:
		w.notes = append(w.notes, fmt.Sprintf("%s: an earlier run was cut short while it replaced the kit: what stood there before was put back", w.dir))
	case left > 0:
		w.notes = append(w.notes, fmt.Sprintf("%s: an earlier run was cut short: what it left in %s was removed", w.dir, path))
	}
	return s, nil
}

// leave takes the stage away, but for what the next run needs to undo this one.
func (s *stage) leave() {
	if _, err := s.disk.Lstat(s.in(undoFile)); errors.Is(err, fs.ErrNotExist) {
		s.clear()
	}
	s.unlock()
	s.disk.Remove(s.path) // only if nothing is in it
}

// clear removes what nothing needs any more.
func (s *stage) clear() error {
	draft := s.disk.Remove(s.in(undoDraft))
	if errors.Is(draft, fs.ErrNotExist) {
		draft = nil
	}
	return errors.Join(draft, removeAll(s.disk, s.in(newFiles)), removeAll(s.disk, s.in(oldFiles)))
}

// fill writes the new files, as open as the user's mask has them or as those
// that they replace are; with sync they are safe from a power failure.
func (s *stage) fill(changes []change, sync bool) error {
	if err := s.disk.Mkdir(s.in(newFiles)); err != nil {
		return err
	}
	// A sync waits for the disk and not for a processor: many at a time take
	// little longer than one.
	atOnce := 1
	if sync {
		atOnce = 32
	}
	return eachOf(len(changes), atOnce, func(i int) error {
		c, path := changes[i], s.in(newFiles, changes[i].Name)
		if err := create(s.disk, path, c.data, sync); err != nil || !c.Existed {
			return err
		}
		return s.disk.Chmod(path, c.mode)
	})
}

// swap puts the new files in place of the old ones, or leaves all as it was. The
// undo file is there before the first is touched, and once it is gone all are
// replaced: whenever the run ends in between, [stage.undo] leads back.
func (s *stage) swap(changes []change) error {
	if err := s.prepare(changes); err != nil {
		return err
	}
	err := s.exchange(changes)
	if err == nil {
		return nil
	}
	if _, lost := s.undo(); lost != nil {
		return fmt.Errorf("%s: can't write there: %w; what stood there could not be put back now, but the next run into it will", s.dir, cause(err))
	}
	return err
}

// prepare writes the undo file as a draft.
func (s *stage) prepare(changes []change) error {
	if err := s.disk.Mkdir(s.in(oldFiles)); err != nil {
		return err
	}
	text, err := json.Marshal(changes)
	if err != nil {
		return err
	}
	if err := create(s.disk, s.in(undoDraft), text, true); err != nil {
		return err
	}
	return s.disk.SyncDir(s.in(newFiles))
}

// exchange lets the undo file count and puts the files in place.
func (s *stage) exchange(changes []change) error {
	if err := s.disk.Rename(s.in(undoDraft), s.in(undoFile)); err != nil {
		return err
	}
	if err := s.disk.SyncDir(s.path); err != nil {
		return err
	}
	for _, c := range changes {
		at := filepath.Join(s.dir, c.Name)
		if c.Existed {
			if err := s.disk.Rename(at, s.in(oldFiles, c.Name)); err != nil {
				return err
			}
		}
		if c.New != "" {
			if err := s.disk.Rename(s.in(newFiles, c.Name), at); err != nil {
				return err
			}
		}
	}
	if err := s.disk.SyncDir(s.dir); err != nil {
		return err
	}
	return s.disk.Remove(s.in(undoFile))
}

// undo puts back what the undo file names and reports whether there was one. It
// can be cut short and done again at any point: a file is put back exactly as
// long as it is among the old ones.
func (s *stage) undo() (bool, error) {
	changes, err := s.readUndo()
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	for _, c := range changes {
		if err := s.putBack(c); err != nil {
			return false, err
		}
	}
	if err := s.disk.SyncDir(s.dir); err != nil {
		return false, err
	}
	return true, s.disk.Remove(s.in(undoFile))
}

func (s *stage) putBack(c change) error {
	at, old := filepath.Join(s.dir, c.Name), s.in(oldFiles, c.Name)
	if c.Existed {
		if _, err := s.disk.Lstat(old); errors.Is(err, fs.ErrNotExist) {
			return nil // never taken away, or back again
		} else if err != nil {
			return err
		}
	}
	_, is, err := look(s.disk, at)
	switch absent := errors.Is(err, fs.ErrNotExist); {
	case err != nil && !absent:
		return err
	case !c.Existed && (absent || is != c.New):
		return nil // nothing of ours
	case !c.Existed:
		return s.disk.Remove(at)
	case !absent && (is == "" || is != c.New):
		return fmt.Errorf("%s: changed since a run was cut short here; move it away, and the next run puts back what stood there", at)
	}
	return s.disk.Rename(old, at)
}

func (s *stage) readUndo() ([]change, error) {
	text, err := readPlain(s.disk, s.in(undoFile))
	if err != nil {
		return nil, err
	}
	var changes []change
	err = json.Unmarshal(text, &changes)
	for _, c := range changes {
		if !plainName(c.Name) {
			err = errors.New(c.Name)
		}
	}
	if err != nil {
		return nil, fmt.Errorf("%s: not as overbend wrote it; move what is in %s back by hand and remove %s", s.in(undoFile), s.in(oldFiles), s.path)
	}
	return changes, nil
}
