package bend

// ForceWithFriction returns the ram's force in N when the tube slides on its
// rollers with a coefficient of friction mu >= 0, in the shape that it has
// without friction; [State.Force] at 0.
//
// The tube is drawn in between the rollers, so each rubs mu N along its
// underside, away from the crown. With the slope s there, the lever arm L of the
// push N about the tangent point and the distance h from the rubbed face, as a
// line, to that point, the moment M there and the force upwards are (plane
// statics, Coulomb friction)
//
//	M = N (L + mu h),  F = 2 N (cos s + mu sin s)
//
// M, s, L and h are those of the state: the rubbing's own small moment along the
// leg, which bends it a little more towards the roller, is left out, and so is
// friction between the layers and at the block.
func (s State) ForceWithFriction(mu float64) float64 {
	if s.Push == 0 {
		return 0
	}
	push := s.Push * s.Arm / (s.Arm + mu*s.Across)
	return 2 * push * (s.Slope.Cos() + mu*s.Slope.Sin())
}

// LargestForce returns the largest force of the ram in N that any coefficient of
// friction from 0 to mu >= 0 can ask for. It is at one end or the other: the
// force rises or falls with the friction throughout. On closely spaced supports
// rubbing lowers it, because the push that bends the tube is then smaller by more
// than the rubbing adds.
func (s State) LargestForce(mu float64) float64 {
	return max(s.ForceWithFriction(0), s.ForceWithFriction(mu))
}
