package kit

import "overbend/cmd/internal/plan"

// Build returns the files of a plan's kit but for its ledger, cut files first.
// The plan must hold all its parts.
func Build(p *plan.Plan, o Options) ([]File, error) {
	cut, err := cutFiles(p, o)
	if err != nil {
		return nil, err
	}
	paper, err := printFiles(p, o)
	if err != nil {
		return nil, err
	}
	return append(cut, paper...), nil
}
