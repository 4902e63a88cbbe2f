package mechanics

// Load gives the load to mention to the prosthetist, in kg: the body, clothed
// and with the prosthesis, plus the heaviest things that are often carried at
// once.
//
//	load = body + carried
//
// It is a number to bring, not one to hold against a rating: the standards that
// test feet warn against choosing a device for one person by them.
// Source: clinic-limb-categories-2017, choosing-a-foot-answer (tell them about
// loads), carried-load-studies; the warnings, iso-10328-scope-2016 and
// iso-22675-scope.
func Load(body float64, carried ...float64) float64 {
	if negative(body) || negative(carried...) {
		return none
	}
	for _, c := range carried {
		body += c
	}
	return body
}
