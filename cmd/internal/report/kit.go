package report

import (
	"overbend/cmd/internal/kit"
	"overbend/cmd/internal/plan"
)

// Kit returns the whole kit of a plan, its ledger last. The plan must hold all its
// parts.
func Kit(p *plan.Plan, o kit.Options) ([]kit.File, error) {
	files, err := kit.Build(p, o)
	if err != nil {
		return nil, err
	}
	ledger, err := JSON(p, files)
	if err != nil {
		return nil, err
	}
	return append(files, kit.File{Name: kit.Ledger, Data: ledger, Purpose: "every number, and what this kit wrote"}), nil
}
