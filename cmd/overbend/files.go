package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/vary"
)

// below is what stands behind a folder to mean every job file in it and in the
// folders below.
const below = "..."

// jobFile is a job that the arguments name, or what keeps one from being looked at.
type jobFile struct {
	path string
	err  error
}

// onlyOne reports whether the arguments name a job file alone. Whoever names a
// folder gets the form of several, however many are in it.
func onlyOne(args []string) bool { return len(args) == 1 && filepath.Base(args[0]) != below }

// jobFiles returns the job files that arguments name, each once. Those below a
// folder are its *.toml in order, but for names that begin with a dot, which are
// editors' and a kit's own, and files that are plainly for something else. The
// notes say which were left out.
func jobFiles(ctx context.Context, args []string) (files []jobFile, notes []string) {
	seen := map[string]string{} // resolved path to the one that is taken
	for _, arg := range args {
		named := []jobFile{{path: arg}}
		if filepath.Base(arg) == below {
			var foreign []string
			named, foreign = jobsBelow(ctx, filepath.Dir(arg))
			for _, path := range foreign {
				notes = append(notes, path+": left out; it has neither [tube] nor [bend], so that it is no job file")
			}
			if len(named) == 0 && ctx.Err() == nil {
				named = []jobFile{{arg, errors.New("no job file there; it must hold one that ends in .toml")}}
			}
		}
		for _, f := range named {
			if f.err == nil {
				if first, ok := seen[resolved(f.path)]; ok {
					notes = append(notes, fmt.Sprintf("%s: the same file as %s; it is done once", f.path, first))
					continue
				}
				seen[resolved(f.path)] = f.path
			}
			files = append(files, f)
		}
	}
	return files, notes
}

// resolved returns what tells a file from all others, by whatever path it is named.
func resolved(path string) string {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	if whole, err := filepath.Abs(path); err == nil {
		path = whole
	}
	return path
}

// jobsBelow returns the job files in a folder and below, and the TOML files that are
// foreign. Links to folders are not followed, so that none leads in a circle.
func jobsBelow(ctx context.Context, dir string) (jobs []jobFile, foreign []string) {
	var found []jobFile
	// Through DirFS the folder itself may be a link.
	fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		path := filepath.Join(dir, filepath.FromSlash(name))
		switch {
		case ctx.Err() != nil:
			return fs.SkipAll
		case err != nil:
			found = append(found, jobFile{path, fmt.Errorf("can't be looked through: %w", plainCause(err))})
			return fs.SkipDir
		case name != "." && strings.HasPrefix(d.Name(), "."):
			if d.IsDir() {
				return fs.SkipDir
			}
		case !d.IsDir() && strings.EqualFold(filepath.Ext(name), ".toml"):
			if info, err := os.Stat(path); err != nil || !info.IsDir() {
				found = append(found, jobFile{path: path})
			}
		}
		return nil
	})
	slices.SortFunc(found, func(a, b jobFile) int { return strings.Compare(a.path, b.path) })
	isForeign := func(i int) bool {
		if found[i].err != nil || ctx.Err() != nil {
			return false
		}
		text, err := job.Text(found[i].path)
		return err == nil && job.Foreign(text) // one that can't be read says so in its turn
	}
	vary.InOrder(ctx, len(found), isForeign, func(i int, other bool) error {
		if other {
			foreign = append(foreign, found[i].path)
		} else {
			jobs = append(jobs, found[i])
		}
		return nil
	})
	return jobs, foreign
}
