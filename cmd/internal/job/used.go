package job

import (
	"path/filepath"
	"strconv"

	"overbend/cmd/internal/shop"
)

// FromShop is what the shop file gave to a job: the keys that the job did not
// override. It names no folder, so that it is the same wherever the file lies.
type FromShop struct {
	File string // the file's name alone; "" when nothing came from it
	Keys []Used
}

// Used is a key of the shop file with its value as the file has it.
type Used struct{ Key, Value string }

// Take adds a key under a name, if the shop file has it.
func (f *FromShop) Take(s shop.Shop, key, as string) {
	if v, ok := s.Written(key); ok {
		f.File, f.Keys = filepath.Base(s.File), append(f.Keys, Used{as, v})
	}
}

// ShopKeys returns the keys of a shop file that a job may give itself, each with
// the job's key that overrides it, "" where none does.
func ShopKeys() [][2]string {
	return [][2]string{
		{"press.capacity", "press.capacity"}, {"press.stroke", "press.stroke"}, {"press.bed", "press.bed"},
		{"press.ram_diameter", "press.ram_diameter"}, {"press.friction", "press.friction"}, {"press.rollers", "press.roller"},
		{"stock.plates", "block.plate"}, {"stock.packing", ""}, {"stock.strips", "strip.thickness"},
		{"cutting.process", "cutting.process"}, {"cutting.kerf", "cutting.kerf"}, {"cutting.sheet", "cutting.sheet"},
	}
}

// fromShop lists what the shop file gave, of the tube's metal all that was kept of
// it.
func (j Job) fromShop(s shop.Shop) FromShop {
	var f FromShop
	for _, k := range ShopKeys() {
		if _, own := j.Written(k[1]); !own {
			f.Take(s, k[0], k[0])
		}
	}
	for i, m := range s.Metals {
		if j.Learned != nil && m.Name == j.Learned.Name {
			for _, key := range []string{"name", "base", "proof", "proof_error", "exponent"} {
				f.Take(s, "metal["+strconv.Itoa(i)+"]."+key, "metal."+key)
			}
		}
	}
	return f
}
