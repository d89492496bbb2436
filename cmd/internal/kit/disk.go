package kit

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// File is one file of a kit, whole in memory.
type File struct {
	Name          string
	Data          []byte
	Width, Height float64 // size of what is drawn, mm; 0 when it has none
	Purpose       string
}

// Ledger is the name of the file in which a kit records what it wrote.
const Ledger = "job.json"

// Entry is a file's line in the ledger.
type Entry struct {
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
}

// Entries returns the ledger lines of files.
func Entries(files []File) []Entry {
	out := make([]Entry, len(files))
	for i, f := range files {
		out[i] = Entry{f.Name, digest(f.Data)}
	}
	return out
}

// Write puts the files into dir, which is made if need be: all of them or
// none. A file that is there already is replaced only if an earlier kit wrote
// it and nobody changed it since, or with force; an unchanged file of an
// earlier kit that this one no longer has is removed.
func Write(dir string, files []File, force bool) error {
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return writeFresh(dir, files)
	case err != nil:
		return writeError(dir, err)
	case !info.IsDir():
		return fmt.Errorf("%s: a file, not a folder; choose another with -o", dir)
	}
	return writeInto(dir, files, force)
}

// writeFresh makes dir with the files in it: they are written into a folder of
// another name beside it, which one rename then puts in place.
func writeFresh(dir string, files []File) error {
	parent := filepath.Dir(filepath.Clean(dir))
	made, err := makeDir(parent)
	if err != nil {
		return writeError(dir, err)
	}
	if err = stageAndRename(parent, dir, files); err != nil {
		for _, d := range made {
			os.Remove(d) // only if still empty
		}
		return writeError(dir, err)
	}
	return nil
}

func stageAndRename(parent, dir string, files []File) error {
	stage, err := os.MkdirTemp(parent, ".overbend-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(stage)
	if err := fill(filepath.Join(stage, "kit"), files); err != nil {
		return err
	}
	return os.Rename(filepath.Join(stage, "kit"), dir)
}

// fill makes dir, as open as the user's mask has it, and writes the files.
func fill(dir string, files []File) error {
	if err := os.Mkdir(dir, 0o777); err != nil {
		return err
	}
	for _, f := range files {
		if err := os.WriteFile(filepath.Join(dir, f.Name), f.Data, 0o666); err != nil {
			return err
		}
	}
	return nil
}

// writeInto replaces the kit in a folder that is there.
func writeInto(dir string, files []File, force bool) error {
	ours := readLedger(dir)
	var change []File // those that differ from what is there
	var before []*saved
	for _, f := range files {
		old, err := check(dir, f, ours, force)
		if err != nil {
			return err
		}
		if old == nil || !bytes.Equal(old.data, f.Data) {
			change, before = append(change, f), append(before, old)
		}
	}
	if len(change) > 0 {
		if err := replace(dir, change, before); err != nil {
			return writeError(dir, err)
		}
	}
	// Leftovers of the earlier kit go last: losing one of them loses nothing.
	for name, sum := range ours {
		if !holds(files, name) {
			path := filepath.Join(dir, name)
			if data, err := os.ReadFile(path); err == nil && digest(data) == sum {
				os.Remove(path)
			}
		}
	}
	return nil
}

// replace writes the files into a folder within dir, so that they are on its
// file system, and then renames them into place one by one. When one can't be,
// those before it are undone.
func replace(dir string, files []File, before []*saved) error {
	stage, err := os.MkdirTemp(dir, ".overbend-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(stage)
	place := func(i int, data []byte) error {
		path := filepath.Join(stage, fmt.Sprint(i))
		if err := os.WriteFile(path, data, 0o666); err != nil {
			return err
		}
		if before[i] != nil {
			return os.Chmod(path, before[i].mode)
		}
		return nil
	}
	for i, f := range files {
		if err := place(i, f.Data); err != nil {
			return err
		}
	}
	for i, f := range files {
		err := os.Rename(filepath.Join(stage, fmt.Sprint(i)), filepath.Join(dir, f.Name))
		if err == nil {
			continue
		}
		lost := ""
		for j, f := range files[:i] {
			path := filepath.Join(dir, f.Name)
			undo := os.Remove
			if before[j] != nil {
				undo = func(path string) error {
					return errors.Join(place(j, before[j].data), os.Rename(filepath.Join(stage, fmt.Sprint(j)), path))
				}
			}
			if undo(path) != nil {
				lost = f.Name
			}
		}
		if lost != "" {
			return fmt.Errorf("%w, and %s could not be put back", cause(err), lost)
		}
		return err
	}
	return nil
}

// saved is what stood in a file's place.
type saved struct {
	data []byte
	mode fs.FileMode
}

// check says whether f may be written, and returns what stands in its place.
func check(dir string, f File, ours map[string]string, force bool) (*saved, error) {
	path := filepath.Join(dir, f.Name)
	info, err := os.Lstat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, writeError(dir, err)
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s: in the way and not a plain file; move it or choose another folder with -o", path)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, writeError(dir, err)
	}
	// The same bytes: nothing is lost, and a kit whose writing was cut short,
	// files in place and ledger not, can be written again.
	if force || ours[f.Name] == digest(data) || bytes.Equal(data, f.Data) {
		return &saved{data, info.Mode().Perm()}, nil
	}
	return nil, fmt.Errorf("%s: not written by overbend, or changed since; move it, choose another folder with -o, or replace it with --force", path)
}

func holds(files []File, name string) bool {
	for _, f := range files {
		if f.Name == name {
			return true
		}
	}
	return false
}

// makeDir makes dir, if it is not there, and returns the folders that it made,
// innermost first.
func makeDir(dir string) ([]string, error) {
	var made []string
	for d := dir; ; d = filepath.Dir(d) {
		if _, err := os.Stat(d); err == nil || d == filepath.Dir(d) {
			break
		}
		made = append(made, d)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		for _, d := range made {
			os.Remove(d)
		}
		return nil, err
	}
	return made, nil
}

// Create writes a new file with the text, or nothing: a file that is there, even
// one that appears in the meantime, is never overwritten.
func Create(path, text string) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s: exists already; choose another name", path)
	}
	if err != nil {
		return fmt.Errorf("%s: can't be written: %w", path, cause(err))
	}
	_, err = f.WriteString(text)
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		os.Remove(path) // only what this run made
		return fmt.Errorf("%s: can't be written: %w", path, cause(err))
	}
	return nil
}

// writeError puts an operating system's error into one sentence about dir.
func writeError(dir string, err error) error {
	return fmt.Errorf("%s: can't write there: %w", dir, cause(err))
}

// cause strips the operation and the paths, which name our own folders, off an
// operating system's error.
func cause(err error) error {
	switch e := err.(type) {
	case *fs.PathError:
		return e.Err
	case *os.LinkError:
		return e.Err
	}
	return err
}

// readLedger returns the digests of the files that the ledger in dir vouches
// for, itself included; none when there is no ledger or it was changed.
func readLedger(dir string) map[string]string {
	data, err := os.ReadFile(filepath.Join(dir, Ledger))
	if err != nil || !sealed(data) {
		return nil
	}
	var doc struct {
		Kit struct {
			Files []Entry `json:"files"`
		} `json:"kit"`
	}
	if json.Unmarshal(data, &doc) != nil {
		return nil
	}
	ours := map[string]string{Ledger: digest(data)}
	for _, e := range doc.Kit.Files {
		if filepath.Base(e.Name) == e.Name {
			ours[e.Name] = e.SHA256
		}
	}
	return ours
}

func digest(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}
