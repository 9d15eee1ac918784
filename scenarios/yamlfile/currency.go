package yamlfile

import (
	"fmt"

	"go.yaml.in/yaml/v4"

	"loamcast/scenarios/units"
)

// A file has one currency. It needs no key for it, since every amount names its own
// as every other quantity names its unit; a key would say it once more and could
// contradict. The first amount of the file decides, so that what is wrong does not
// depend on the order in which a schema asks; where the schema says which keys are
// money ([Document.MoneyAt]), the first of these. Nothing is converted.

// tender is the currency of a file, and the first amount that names it. The code is
// empty where no amount does.
type tender struct {
	code string
	line int
}

// anywhere is where money may stand that no schema has spoken of.
func anywhere(string) bool { return true }

// firstMoney finds the first single value that is an amount of money or a price with its
// currency, at a path where money may be or below it.
func firstMoney(n *yaml.Node, path string, may func(path string) bool) tender {
	if may(path) {
		may = anywhere
	}
	switch n.Kind {
	case yaml.ScalarNode:
		if may(path) {
			return tender{units.CurrencyOf(n.Value), n.Line}
		}
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			key := n.Content[i].Value
			if path != "" {
				key = path + "." + key
			}
			if t := firstMoney(n.Content[i+1], key, may); t.code != "" {
				return t
			}
		}
	case yaml.SequenceNode:
		for _, entry := range n.Content {
			if t := firstMoney(entry, path+"[]", may); t.code != "" {
				return t
			}
		}
	}
	return tender{}
}

// MoneyAt says at which keys money may stand, by their paths, "options[].cost": no other
// text decides the currency of the file, whatever it looks like. It is to be called
// before anything is read.
func (d *Document) MoneyAt(may func(path string) bool) { d.money = firstMoney(d.node, "", may) }

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
