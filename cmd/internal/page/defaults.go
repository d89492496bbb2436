package page

import (
	"cmp"

	"overbend/cmd/internal/job"
	"overbend/cmd/internal/plan"
	"overbend/cmd/internal/quantity"
	"overbend/profiles"
)

// defaults returns what holds for keys that a job leaves out, as its field shows
// it, in the job's own units. A key that is not in it holds nothing.
func defaults(p *plan.Plan) map[string]string {
	j, t, u := p.Job, p.Tools, p.Job.Units()
	d := map[string]string{
		"bend.radius_at": "centre", "allowance.mode": "computed", "filler.alloy": "none", "filler.plugs": u.Length(j.Filler.Plugs[0]),
		"ends.cut": "square", "strip.thickness": u.Length(p.Strip.Thickness), "strip.material": j.Strip.Material.Name,
		"press.roller": u.Length(j.Press.Roller), "press.ram_width": u.Length(j.Press.RamWidth), "press.friction": u.Show(quantity.Number.Of(j.Press.Friction)),
		"press.capacity": "not checked", "press.stroke": "not checked", "press.bed": "not checked", "press.ram_diameter": "no gauge",
		"cutting.kerf": u.Length(j.Cutting.Kerf), "cutting.process": cmp.Or(j.Cutting.Process, "not checked"), "cutting.sheet": "no lay-out",
		"block.existing": "none", "block.use": "a new one", "ends.trim": u.Length(j.Tube.Depth / 2),
		"fixture.pin": u.Show(quantity.Nominal.Of(j.Fixture.Pin)), "fixture.size": "as large as it must be",
		"allowance.proof": "the listed range", "material.poisson": "0.33", "material.unloading": "1",
	}
	// What the shop file gives.
	if j.Press.Capacity > 0 {
		d["press.capacity"] = u.Show(j.Press.Rated.Of(j.Press.Capacity))
	}
	for key, mm := range map[string]float64{"press.stroke": j.Press.Stroke, "press.bed": j.Press.Bed, "press.ram_diameter": j.Press.Ram} {
		if mm > 0 {
			d[key] = u.Length(mm)
		}
	}
	if s := j.Cutting.Sheet; s[0] > 0 {
		d["cutting.sheet"] = u.Size(s[:]...)
	}
	if j.Tube.Shape == profiles.Rectangle {
		d["tube.corner"] = u.Length(j.Tube.Corner)
	}
	if j.Inline {
		d["material.family"] = string(j.Material.Family)
	}
	if t.Plate > 0 {
		d["block.plate"] = u.Length(t.Plate)
		d["fixture.plate"] = u.Length(cmp.Or(j.Fixture.Plate, t.Plate))
	}
	if j.Template.Plate == 0 {
		d["template.plate"] = "thin sheet"
	}
	if len(t.Block.Layers) > 0 {
		d["block.height"], d["block.hole"] = u.Length(t.Block.Height), u.Length(t.Block.Hole)
	}
	if t.CheekDepth > 0 {
		d["block.cheek_depth"] = u.Length(t.CheekDepth)
	}
	if q := p.Press; q != nil {
		d["press.supports"] = u.Tape(q.Rig.Supports)
	}
	for n := range len(j.Trials) + 1 {
		d[trialName(n, "angle_error")] = u.Angle(job.DefaultAngleError)
		d[trialName(n, "rise_error")] = u.Length(job.RuleError(u))
		d[trialName(n, "travel_error")] = u.Length(job.RuleError(u))
		d[trialName(n, "loaded_error")] = u.Angle(job.DefaultAngleError)
	}
	return d
}
