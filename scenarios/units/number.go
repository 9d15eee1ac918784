package units

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

var (
	numberStart = regexp.MustCompile(`^[+-]?(\d[\d,.]*|\.\d[\d,.]*)([eE][+-]?\d+)?`)
	plainNumber = regexp.MustCompile(`^[+-]?(\d{1,3}(,\d{3})+|\d+)?(\.\d*)?([eE][+-]?\d+)?$`)
)

// splitNumber parts text into the number that begins it, and the rest. The
// number may use commas between groups of three digits, a decimal point and
// an exponent. An error without a hint is for the caller to complete.
func splitNumber(text string) (value float64, rest string, err error) {
	digits := numberStart.FindString(text)
	if digits == "" {
		return 0, "", fault(quote(text)+" does not start with a number", "")
	}
	rest = strings.TrimSpace(text[len(digits):])
	if !plainNumber.MatchString(digits) {
		return 0, "", fault(quote(digits)+" is not a number this program reads",
			"use a comma only between groups of three digits, and a point for decimals: 1,234.5")
	}
	value, err = strconv.ParseFloat(strings.ReplaceAll(digits, ",", ""), 64)
	if err != nil || math.IsInf(value, 0) {
		return 0, "", fault(quote(digits)+" is too large a number", "check its exponent")
	}
	return value, rest, nil
}

// FormatNumber writes x with three significant digits, or four from 1,000 on,
// with commas between groups of three digits and without trailing zeros.
// Numbers that would need more than 15 digits are written with an exponent.
func FormatNumber(x float64) string {
	if math.Abs(x) >= 1000 {
		return formatDigits(x, 4)
	}
	return formatDigits(x, 3)
}

func formatDigits(x float64, digits int) string {
	switch size := math.Abs(x); {
	case math.IsNaN(x):
		return "n/a"
	case math.IsInf(x, 0):
		return strings.Replace(strconv.FormatFloat(x, 'f', -1, 64), "Inf", "infinite", 1)
	case x == 0:
		return "0"
	case size < 1e-4 || size >= 1e15:
		return strconv.FormatFloat(x, 'e', 2, 64)
	}
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	return groupThousands(strconv.FormatFloat(rounded, 'f', -1, 64))
}

// groupThousands puts commas into a decimal numeral without an exponent.
func groupThousands(numeral string) string {
	sign := ""
	if strings.HasPrefix(numeral, "-") {
		sign, numeral = "-", numeral[1:]
	}
	whole, decimals, _ := strings.Cut(numeral, ".")
	if decimals != "" {
		decimals = "." + decimals
	}
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	return sign + whole + decimals
}
