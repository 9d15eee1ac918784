package yamlfile

import (
	"fmt"

	"go.yaml.in/yaml/v4"

	"loamcast/scenarios/units"
)

// A file has one currency. It needs no key for it, since every amount names its own
// as every other quantity names its unit; a key would say it once more and could
// contradict. The first amount of the file decides, so that what is wrong does not
// depend on the order in which a schema asks. Nothing is converted.

// tender is the currency of a file, and the first amount that names it. The code is
// empty where no amount does.
type tender struct {
	code string
	line int
}

// firstMoney finds the first single value of a file that is an amount of money or a
// price with its currency.
func firstMoney(n *yaml.Node) tender {
	if n.Kind == yaml.ScalarNode {
		return tender{units.CurrencyOf(n.Value), n.Line}
	}
	for i, child := range n.Content {
		if n.Kind == yaml.MappingNode && i%2 == 0 {
			continue // a key
		}
		if t := firstMoney(child); t.code != "" {
			return t
		}
	}
	return tender{}
}

// Currency returns the code of the file's currency, such as "EUR", and [units.USD]
// where no amount of it names one.
func (d *Document) Currency() string {
	if d.money.code == "" {
		return units.USD
	}
	return d.money.code
}

// foreign is what is wrong with a quantity in another currency than the file's; nil
// if it is in none or in that one.
func (d *Document) foreign(text string) *fault {
	code := units.CurrencyOf(text)
	if code == "" || code == d.Currency() {
		return nil
	}
	return &fault{
		message: fmt.Sprintf("%s is in %s, but the file's money is %s since line %d", quote(text), code, d.money.code, d.money.line),
		hint:    "write it in " + d.money.code + "; a file has one currency, and nothing is converted",
		cause:   "currency " + code,
	}
}

// onceEach keeps of diagnostics with one cause the first and says how many more
// there are, so that one mistake is told once. The list is in order of position.
func onceEach(list []Diagnostic) []Diagnostic {
	var kept []Diagnostic
	first, more := map[string]int{}, map[string]int{}
	for _, d := range list {
		if at, seen := first[d.cause]; seen && d.cause != "" {
			more[d.cause]++
			kept[at].more = more[d.cause]
			continue
		}
		first[d.cause] = len(kept)
		kept = append(kept, d)
	}
	for i, d := range kept {
		switch {
		case d.more == 1:
			kept[i].Hint += " (and so in 1 more place)"
		case d.more > 1:
			kept[i].Hint += fmt.Sprintf(" (and so in %d more places)", d.more)
		}
	}
	return kept
}
