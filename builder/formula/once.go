package formula

// Once gives what names stand for where some of them are worked out by formulas
// from others: each formula is worked out at most once, however many ask for it.
// A formula that is nil is unknown. answered gives what all other names stand for.
func Once(formulas map[string]*Expr, answered func(name string) Value) func(name string) Value {
	var done map[string]Value // most conditions ask for no formula
	var value func(string) Value
	value = func(name string) Value {
		e, worked := formulas[name]
		if !worked {
			return answered(name)
		}
		v, ok := done[name]
		if !ok {
			if e != nil {
				v = e.Eval(value)
			}
			if done == nil {
				done = make(map[string]Value, len(formulas))
			}
			done[name] = v
		}
		return v
	}
	return value
}
