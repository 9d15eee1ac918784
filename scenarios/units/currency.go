package units

import "strings"

// USD is the currency of money that names none, and the one in which this package
// and the tables of keys write their examples.
const USD = "USD"

// Currencies are the codes of ISO 4217 for money that people pay with, from memory;
// those that most files will name stand first. Nothing is known of a currency but
// its code: amounts are not converted, and to the program all are the same unit.
var currencies = strings.Fields(`
	USD EUR GBP CAD AUD NZD CHF SEK NOK DKK JPY CNY INR MXN BRL ZAR
	AED AFN ALL AMD ANG AOA ARS AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BSD BTN BWP BYN BZD
	CDF CLP COP CRC CUP CVE CZK DJF DOP DZD EGP ERN ETB FJD FKP GEL GHS GIP GMD GNF GTQ GYD
	HKD HNL HTG HUF IDR ILS IQD IRR ISK JMD JOD KES KGS KHR KMF KPW KRW KWD KYD KZT
	LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MYR MZN NAD NGN NIO NPR
	OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SGD SHP SLE SOS SRD SSP STN SVC SYP SZL
	THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX UYU UZS VED VES VND VUV WST XAF XCD XCG XOF XPF YER ZMW ZWG`)

// signs are what people write instead of a code, where it means one currency.
var signs = map[string][]string{USD: {"$", "US$", "dollar"}, "EUR": {"€", "euro"}, "GBP": {"£"}}

// moneyUnits are the currencies as units.
func moneyUnits() []unit {
	list := make([]unit, len(currencies))
	for i, code := range currencies {
		list[i] = unit{names: append([]string{code}, signs[code]...), num: 1, den: 1, powers: money, currency: code}
	}
	return list
}

// CurrencyOf returns the code of the currency that a quantity is written in, empty
// where the text names none or is no quantity.
func CurrencyOf(text string) string {
	_, c, err := split(text, wanted{Dimension: Money})
	if err != nil || c.powers[4] == 0 {
		return ""
	}
	return c.currency
}

// Monetary reports whether money is in what a dimension measures: an amount or a price.
func (d Dimension) Monetary() bool { return bases[d].powers[4] != 0 }

// InCurrency puts the code of a currency in the place of [USD] in words about
// quantities, such as the examples of messages. An empty code leaves them alone.
func InCurrency(words, code string) string {
	if code == "" {
		return words
	}
	return strings.ReplaceAll(words, USD, code)
}

// With returns the system with money in a currency, by its code; an empty one is
// [USD].
func (s System) With(code string) System {
	if code == USD {
		code = ""
	}
	s.currency = code
	return s
}

// Currency returns the code of the currency of money.
func (s System) Currency() string {
	if s.currency == "" {
		return USD
	}
	return s.currency
}

// label writes a label of the tables in the system's currency.
func (s System) label(text string) string { return InCurrency(text, s.currency) }

// suffix is label for the ending of a name.
func (s System) suffix(text string) string {
	if s.currency == "" {
		return text
	}
	return strings.ReplaceAll(text, strings.ToLower(USD), strings.ToLower(s.currency))
}
