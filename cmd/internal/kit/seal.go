package kit

import "bytes"

// A ledger can't hold its own digest, so it carries the digest of itself with
// the digest's place filled with noSeal.
const (
	sealKey = `"seal": "`
	noSeal  = "0000000000000000000000000000000000000000000000000000000000000000"
)

// NoSeal is what a ledger's text has in the seal's place before [Seal].
const NoSeal = noSeal

// Seal fills in the seal of a ledger text that holds NoSeal under its key
// "seal", once.
func Seal(text []byte) []byte {
	i := sealPlace(text)
	if i < 0 {
		panic("kit: ledger without a place for its seal")
	}
	out := bytes.Clone(text)
	copy(out[i:], digest(text))
	return out
}

// sealed reports whether a ledger's text is as it was sealed.
func sealed(text []byte) bool {
	i := sealPlace(text)
	if i < 0 {
		return false
	}
	open := bytes.Clone(text)
	copy(open[i:], noSeal)
	return digest(open) == string(text[i:i+len(noSeal)])
}

// sealPlace returns the offset of the seal in a ledger's text, or -1.
func sealPlace(text []byte) int {
	i := bytes.LastIndex(text, []byte(sealKey))
	if i < 0 || i+len(sealKey)+len(noSeal) > len(text) {
		return -1
	}
	return i + len(sealKey)
}
