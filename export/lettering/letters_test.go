package lettering

import "testing"

// The two tables must stay in step.
func TestPlainLetter(t *testing.T) {
	if n := len([]rune(accented)); n != len(plain) {
		t.Fatalf("%d accented letters, %d plain ones", n, len(plain))
	}
	got := ""
	for _, r := range "ÀçĐéîŁñØřŠůÝž" {
		c, ok := PlainLetter(r)
		if !ok {
			t.Errorf("%c is no letter", r)
		}
		got += string(rune(c))
	}
	if want := "AcDeiLnOrSuYz"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if _, ok := PlainLetter('長'); ok {
		t.Error("長 has a plain letter")
	}
}
