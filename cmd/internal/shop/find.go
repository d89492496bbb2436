package shop

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"overbend/cmd/internal/keyed"
)

// Variable is the environment variable that names the shop file.
const Variable = "OVERBEND_SHOP"

// None is what a user writes for no shop file at all.
const None = "none"

// Place is where the shop file is looked for.
type Place struct {
	Path  string // "": no shop file
	Named bool   // by flag or variable: the file must be there
}

// Find returns where the shop file is: where the flag says, which is "" when it is
// not given, else the variable, else overbend/shop.toml in the user's configuration
// folder. "none" in either, and a variable that is set to nothing, mean no shop
// file.
func Find(flag string) Place {
	named := flag
	if named == "" {
		var set bool
		if named, set = os.LookupEnv(Variable); set && named == "" {
			return Place{}
		}
	}
	switch named {
	case None:
		return Place{}
	case "":
		dir, err := os.UserConfigDir()
		if err != nil {
			return Place{} // a user without a home has no shop file
		}
		return Place{Path: filepath.Join(dir, "overbend", "shop.toml")}
	}
	return Place{named, true}
}

// Read reads the shop file at its place. One that is not there is an error where it
// was named, and no shop file otherwise.
func (p Place) Read() (Shop, error) {
	if p.Path == "" {
		return Nothing(), nil
	}
	text, err := keyed.ReadFile(p.Path, aShop)
	switch {
	case errors.Is(err, fs.ErrNotExist) && !p.Named:
		return Nothing(), nil
	case errors.Is(err, fs.ErrNotExist):
		return Shop{}, &keyed.Error{File: p.Path, Text: err.Error() + "; overbend shop --new FILE writes one"}
	case err != nil:
		return Shop{}, &keyed.Error{File: p.Path, Text: err.Error()}
	}
	return Parse(p.Path, string(text))
}
