package drawtest

// Names returns names of jobs and people that a drawing must letter: in every
// script, as long as a name may be, and with letters that no face here has.
func Names() []string {
	return []string{
		"random", "x",
		"стрела шлюпбалки № 3", "βραχίονας επωτίδας", "wysięgnik żurawika Łódź", "İğneada vinç kolu", "支柱 davit 🛥",
		"удлинённая стрела шлюпбалки правого борта верхней палубы №12",
		"ЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖЖ",
		"支支支支支支支支支支支支支支支支支支支支支支支支支支支支支支支支支支支支支支支支",
	}
}
