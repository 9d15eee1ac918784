package mix

import (
	"bufio"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"loamcast/facility/material"
)

// oracleMixes is the number of random designs put to the second solver.
const oracleMixes = 320

// Shows that the simplex wrapper gives the status and the optimal value of an
// independent solver (GLPK's glpsol) on the programs of random designs: the
// last one of each, with its targets firm, and of every fourth with misses
// allowed.
func TestProgramsAgreeWithGLPK(t *testing.T) {
	solver := requireTool(t, "glpsol")
	dir := t.TempDir()
	r := rand.New(rand.NewPCG(20, 7))
	feasible, infeasible := 0, 0
	for n := range oracleMixes {
		d := randomDesign(r)
		p := newProblem(d)
		br := material.Branches()[r.IntN(len(material.Branches()))]
		if n%2 == 0 { // half of them on the branch where most mixes lie
			br = material.Branch{Crumb: material.Paste}
		}
		objective := Objective(r.IntN(2))
		c, _ := p.onBranch(br, objective, p.starts(br)[0])
		tan := p.tangent(br, c.y)
		for _, elastic := range []bool{false, true} {
			if elastic && n%4 != 0 {
				continue // these always have a solution: a part of them will do
			}
			q := p.program(tan, objective, elastic)
			name := filepath.Join(dir, fmt.Sprintf("mix%d_%t.lp", n, elastic))
			want := askGLPK(t, solver, name, q)
			_, value, err := q.minimise()
			switch {
			case want.infeasible && errors.Is(err, errInfeasible):
				infeasible++
			case want.infeasible || err != nil:
				t.Errorf("%s: glpsol says infeasible %t, here: %v", name, want.infeasible, err)
			case math.Abs(value-want.value) > 1e-6*math.Abs(want.value)+slackOf(elastic):
				t.Errorf("%s: optimum %.12g, glpsol %.12g", name, value, want.value)
			default:
				feasible++
			}
		}
	}
	t.Logf("%d designs: %d programs with a solution, %d without", oracleMixes, feasible, infeasible)
	if feasible < oracleMixes/2 || infeasible < oracleMixes/5 {
		t.Errorf("one-sided sample: %d programs with a solution, %d without", feasible, infeasible)
	}
}

// slackOf is the absolute difference allowed. Without a miss the elastic
// program is worth next to nothing, and glpsol lets a row be broken by 1e-7.
func slackOf(elastic bool) float64 {
	if elastic {
		return 2e-7
	}
	return 1e-9
}

// requireTool finds a program, or skips; with LOAMCAST_REQUIRE_TOOLS=1 its
// absence is a failure.
func requireTool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err == nil {
		return path
	}
	if os.Getenv("LOAMCAST_REQUIRE_TOOLS") == "1" {
		t.Fatalf("%s is required (LOAMCAST_REQUIRE_TOOLS=1): %v", name, err)
	}
	t.Skipf("%s is not installed", name)
	return ""
}

type verdict struct {
	infeasible bool
	value      float64
}

func askGLPK(t *testing.T, solver, name string, q program) verdict {
	t.Helper()
	if err := os.WriteFile(name, []byte(cplexLP(q)), 0o600); err != nil {
		t.Fatal(err)
	}
	answer := name + ".txt"
	if out, err := exec.Command(solver, "--lp", name, "--nopresol", "-w", answer).CombinedOutput(); err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	f, err := os.Open(answer)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	for lines.Scan() { // "s bas rows columns primal dual objective"
		field := strings.Fields(lines.Text())
		if len(field) == 7 && field[0] == "s" {
			value, err := strconv.ParseFloat(field[6], 64)
			if err != nil {
				t.Fatal(err)
			}
			return verdict{infeasible: field[4] != "f", value: value}
		}
	}
	t.Fatalf("%s: no solution line in glpsol's answer", name)
	return verdict{}
}

// cplexLP writes a program in the CPLEX-LP text format.
func cplexLP(q program) string {
	var b strings.Builder
	terms := func(v []float64) {
		for j, c := range v {
			fmt.Fprintf(&b, " %+.17g x%d", c, j)
		}
	}
	b.WriteString("Minimize\n cost:")
	terms(q.cost)
	b.WriteString("\nSubject To\n")
	signs := map[sense]string{atLeast: ">=", atMost: "<=", exactly: "="}
	for i, r := range q.rows {
		fmt.Fprintf(&b, " r%d:", i)
		terms(r.coef)
		fmt.Fprintf(&b, " %s %.17g\n", signs[r.sense], r.bound)
	}
	b.WriteString("End\n")
	return b.String()
}
