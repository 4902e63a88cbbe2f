package browsertest

import (
	"cmp"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
)

// The next question is to be there within one frame of 16 ms on a machine four times
// slower: the 95th percentile over all answers of a worked example of each topic. As
// with BenchmarkFigureDrag it is measured and told, and not held. An answer's time is
// how long the page's own thread works on the tap that goes on: its script, with the
// layout that it asks for. Of two walks each answer counts with its least time, since
// a pause that others make on the processor is no work of the page.
func BenchmarkAnswerToNextQuestion(bench *testing.B) {
	b := newTab(bench)
	b.size(360, 740)
	for range bench.N {
		var all, firsts []float64
		for _, tr := range lib.PatientTrees() {
			steps := [][]string{}
			for _, s := range walk(bench, tr, tr.Examples[0].Given()).Steps {
				steps = append(steps, s.Chosen)
			}
			least := b.answerTimes(tr.ID.S, steps)
			for i, ms := range b.answerTimes(tr.ID.S, steps) {
				least[i] = min(least[i], ms)
			}
			bench.Logf("%s: %.1f ms", tr.ID.S, least)
			all, firsts = append(all, least...), append(firsts, least[0])
		}
		bench.Logf("%d answers: %.1f ms at 50 of 100, %.1f ms at 95; of %d first ones %.1f ms at 50", len(all), percentile(all, 50), percentile(all, 95), len(firsts), percentile(firsts, 50))
		bench.ReportMetric(percentile(all, 95), "p95-ms")
	}
}

// answerTimes takes a topic so and gives how long each answer took, in ms.
func (b *tab) answerTimes(topic string, steps [][]string) []float64 {
	b.t.Helper()
	b.openPlanner(onDisk)
	b.hand(`answer([%s]); pass()`, topic)
	rest := func() { time.Sleep(60 * time.Millisecond) }
	rest()
	command(b, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 4})
	b.startTrace()
	for _, chosen := range steps {
		press := fmt.Sprintf("answer(%s)", quoted(b, chosen))
		if chosen[0] == "skip" {
			press = `button("skip")`
		}
		b.run("(() => {" + hands + `console.timeStamp("answer");` + press + "})()")
		rest()
	}
	costs := clicks(b.endTrace())
	command(b, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 1})
	if len(costs) != len(steps) {
		b.t.Fatalf("%s: %d answers were given, and %d are in the trace", topic, len(steps), len(costs))
	}
	return costs
}

// clicks gives the longest click behind each time stamp: the one that goes on.
func clicks(events []traceEvent) []float64 {
	slices.SortStableFunc(events, func(a, b traceEvent) int { return cmp.Compare(a.Ts, b.Ts) })
	var out []float64
	for _, e := range events {
		switch {
		case e.Name == "TimeStamp":
			out = append(out, 0)
		case e.Name == "EventDispatch" && e.Args.Data.Type == "click" && len(out) > 0:
			out[len(out)-1] = max(out[len(out)-1], e.Tdur/1000)
		}
	}
	return out
}
