package plan

import (
	"strings"
	"testing"

	"overbend/cmd/internal/quantity"
	"overbend/cmd/internal/words"
)

// One warning names all keys with such letters, and every letter once; a job whose
// letters can all be drawn gets none.
func TestLetters(t *testing.T) {
	for _, row := range []struct {
		edits       []string
		about, want string
	}{
		{nil, "", ""},
		{[]string{`name = "Łódź стрела βραχίονας ⌀40 №3"`, `[drawing]` + "\n" + `owner = "Şantiye Ž & Ñ"` + "\n" + `drawn = "Ж. Щ."`}, "", ""},
		{[]string{`name = "e` + "\u0301" + `tai"`}, "", ""}, // one letter, however it was typed
		{[]string{`name = "支柱 支"`}, "name", `支 (U+652F) and 柱 (U+67F1) of name can't be lettered: "?" is drawn for each; Latin, Greek and Cyrillic letters can be`},
		{[]string{`name = "why? е` + "\u0301" + `"`}, "name", "◌\u0301 (U+0301) of name can't"},
		{[]string{"[drawing]\nowner = \"工場\"\nnumber = \"図-1\"\nrevision = \"甲\"\ndrawn = \"場\"\napproved = \"ㄱ\""}, "drawing.owner",
			"工 (U+5DE5), 場 (U+5834), 図 (U+56F3), 甲 (U+7532) and ㄱ (U+3131) of drawing.owner, drawing.number, drawing.revision, drawing.drawn and drawing.approved can't"},
		{[]string{`name = "一二三四五六七"`}, "name", "六 (U+516D) and 1 more of name"},
		{[]string{`name = "一二三四五六"`}, "name", "五 (U+4E94) and 六 (U+516D) of name"},
	} {
		p, err := New(jobOf(t, row.edits...))
		if err != nil {
			t.Fatal(err)
		}
		var got []words.Advice
		for _, a := range p.Advice {
			if a.Code == words.LettersLacking {
				got = append(got, a)
			}
		}
		if row.about == "" {
			if len(got) > 0 {
				t.Errorf("%q: %q", row.edits, got[0].Say(quantity.Millimetres))
			}
			continue
		}
		if len(got) != 1 || got[0].About != row.about || got[0].Level != words.Warning {
			t.Fatalf("%q: %+v", row.edits, got)
		}
		if s := got[0].Say(quantity.Millimetres); !strings.Contains(s, row.want) {
			t.Errorf("%q: %q, want %q", row.edits, s, row.want)
		}
		if s := got[0].Brief(quantity.Millimetres); strings.ContainsFunc(s, func(r rune) bool { return r > '~' }) || !strings.Contains(s, "U+") {
			t.Errorf("%q: %q on paper, which has none of the letters", row.edits, s)
		}
	}
}

// What advice names is drawn, too, whatever it is called: a block on the rack, the
// shop's file.
func TestLettersOfAdvice(t *testing.T) {
	given := []words.Advice{
		say(words.Note, words.Design, "block", words.RackBest, words.Figures{"name": "弓", "block": quantity.Length.Of(3)}),
		say(words.Note, words.Anywhere, "shop", words.ShopGave, words.Figures{"file": "/工/shop.toml", "keys": "drawing.owner 工"}),
	}
	j := jobOf(t)
	j.Material.Name = "支 6082" // learned by the shop
	if got := letters(j, nil); len(got) != 1 || got[0].About != "tube.material" {
		t.Errorf("%+v", got)
	}
	got := letters(jobOf(t), given)
	if len(got) != 1 || got[0].About != "block" || !strings.Contains(got[0].Say(0), "弓 (U+5F13) and 工 (U+5DE5) of block and shop can't") {
		t.Errorf("%+v", got)
	}
}
