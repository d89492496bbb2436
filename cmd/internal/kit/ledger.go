package kit

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
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

// ledger is what a folder's [Ledger] vouches for.
type ledger struct {
	job  string            // name of the job whose kit it is
	sums map[string]string // digests of the kit's files, the ledger's own included
}

// readLedger returns what the ledger in dir says: nothing when there is none or
// it was changed.
func readLedger(d disk, dir string) ledger {
	data, err := readPlain(d, filepath.Join(dir, Ledger))
	if err != nil {
		return ledger{}
	}
	return parseLedger(data)
}

func parseLedger(data []byte) ledger {
	if !sealed(data) {
		return ledger{}
	}
	var doc struct {
		Name string `json:"name"`
		Kit  struct {
			Files []Entry `json:"files"`
		} `json:"kit"`
	}
	if json.Unmarshal(data, &doc) != nil {
		return ledger{}
	}
	sums := map[string]string{Ledger: digest(data)}
	for _, e := range doc.Kit.Files {
		if plainName(e.Name) {
			sums[e.Name] = e.SHA256
		}
	}
	return ledger{doc.Name, sums}
}

// plainName reports whether a name out of a file is one of a file in a folder,
// and not a path out of it.
func plainName(name string) bool {
	return filepath.Base(name) == name && name != "." && name != ".." && name != string(filepath.Separator)
}

func digest(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}
