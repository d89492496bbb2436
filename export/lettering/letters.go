package lettering

// Letters with an accent, and the plain letter in the same place below.
const (
	accented = "ÀÁÂÃÅĀĂĄàáâãåāăąÇĆĈĊČçćĉċčĎĐďđÐðÈÉÊËĒĔĖĘĚèéêëēĕėęěĜĞĠĢĝğġģĤĦĥħÌÍÎÏĨĪĬĮİìíîïĩīĭįıĴĵĶķĹĻĽĿŁĺļľŀłÑŃŅŇñńņňÒÓÔÕØŌŎŐòóôõøōŏőŔŖŘŕŗřŚŜŞŠśŝşšŢŤŦţťŧÙÚÛŨŪŬŮŰŲùúûũūŭůűųŴŵÝŶŸýÿŷŹŻŽźżž"
	plain    = "AAAAAAAAaaaaaaaaCCCCCcccccDDddDdEEEEEEEEEeeeeeeeeeGGGGggggHHhhIIIIIIIIIiiiiiiiiiJjKkLLLLLlllllNNNNnnnnOOOOOOOOooooooooRRRrrrSSSSssssTTTtttUUUUUUUUUuuuuuuuuuWwYYYyyyZZZzzz"
)

// PlainLetter returns the letter of A to Z or a to z that r is with its accent
// or stroke left out, and whether r is such a letter.
func PlainLetter(r rune) (byte, bool) {
	place := 0
	for _, a := range accented {
		if a == r {
			return plain[place], true
		}
		place++
	}
	return 0, false
}
