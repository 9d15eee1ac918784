package units

// Dimension says what kind of quantity a field holds. Some dimensions are of
// the same physical kind and differ only in the units they are shown in: Mass
// and ScaleMass, VolumePerTime and AirFlow, Rate and AnnualRate, MoneyPerTime and
// MoneyPerHour, MassPerVolume and MassPerLiquid, Volume and Liquid, MoneyPerVolume and
// MoneyPerLiquid.
type Dimension int

// The dimensions, with the base unit the program holds each in.
const (
	Dimensionless         Dimension = iota // a bare number
	Ratio                                  // a bare number, or yd3/yd3 and the like
	Fraction                               // 0 to 1; written in %, never bare
	Mass                                   // kg; wet or dry, as the field's name says
	ScaleMass                              // kg; as a scale shows it, in whole lb or kg
	Volume                                 // m3
	Length                                 // m
	Area                                   // m2
	Duration                               // s
	Temperature                            // °C
	TemperatureDifference                  // °C
	MassPerTime                            // kg/day: solids production
	MassTime                               // kg·day: what waits, and how long
	MassPerVolume                          // kg/m3: bulk density
	VolumePerTime                          // m3/day: material and liquids
	AirFlow                                // m3/day
	VolumePerAreaTime                      // m3 per m2 and day: biofilter loading
	VolumePerMassTime                      // m3 per kg and day: specific air flow
	Power                                  // kW
	Energy                                 // kJ
	EnergyPerMass                          // kJ/kg: heat of combustion, energy use
	PowerPerTemperature                    // kW/K: heat loss through walls
	Rate                                   // 1/day: first-order decay
	AnnualRate                             // 1/year: growth, escalation, discount
	Money                                  // USD, or whatever the currency is
	MoneyPerMass                           // USD/kg, and so on
	MoneyPerVolume                         // USD/m3
	MoneyPerTime                           // USD/day
	MoneyPerHour                           // USD/h: labour and machines
	MoneyPerEnergy                         // USD/kJ
	VolumePerYear                          // m3/year: bought or sold, mean of a plan
	Years                                  // years of a horizon
	MassPerArea                            // kg/m2: load of a biofilter's bed
	MassPerEnergy                          // kg/kJ: what is given off for it
	MassPerLiquid                          // kg/m3: what a fuel gives off
	Liquid                                 // m3: fuel
	MoneyPerLiquid                         // USD/m3
)

// dimension is what the table says of a Dimension. Units are written as a
// user may write them, and read by the same parser. In the lists us and si the
// first unit is the one tables and charts use; the others serve Format when a
// value is small.
type dimension struct {
	name    string // with its article
	base    string
	bare    bool // written without a unit
	us, si  []string
	example string // what to write, for messages
}

var dimensionTable = [...]dimension{
	Dimensionless:         {name: "a number", bare: true, us: []string{""}, si: []string{""}, example: "1.25"},
	Ratio:                 {name: "a ratio", bare: true, us: []string{""}, si: []string{""}, example: "2.5"},
	Fraction:              {name: "a fraction", base: "", us: []string{"%"}, si: []string{"%"}, example: "18 %"},
	Mass:                  {name: "a mass", base: "kg", us: []string{"short ton", "lb"}, si: []string{"t", "kg"}, example: "20 short ton or 18 t"},
	ScaleMass:             {name: "a mass", base: "kg", us: []string{"lb"}, si: []string{"kg"}, example: "10,000 lb or 4,500 kg"},
	Volume:                {name: "a volume", base: "m3", us: []string{"yd3", "ft3"}, si: []string{"m3", "L"}, example: "40 yd3 or 30 m3"},
	Length:                {name: "a length", base: "m", us: []string{"ft", "in"}, si: []string{"m", "mm"}, example: "8 ft or 2.4 m"},
	Area:                  {name: "an area", base: "m2", us: []string{"ft2"}, si: []string{"m2"}, example: "5,000 ft2 or 465 m2"},
	Duration:              {name: "a duration", base: "s", us: []string{"day", "h", "min"}, si: []string{"day", "h", "min"}, example: "12 day or 45 min"},
	Temperature:           {name: "a temperature", base: "°C", us: []string{"°F"}, si: []string{"°C"}, example: "57 °F or 14 °C"},
	TemperatureDifference: {name: "a temperature difference", base: "°C", us: []string{"°F"}, si: []string{"°C"}, example: "9 °F or 5 °C"},
	MassPerTime:           {name: "a mass per time", base: "kg/day", us: []string{"short ton/day", "lb/day"}, si: []string{"t/day", "kg/day"}, example: "6.5 short ton/day or 5.9 t/day"},
	MassTime:              {name: "a mass held for a time", base: "kg·day", us: []string{"short ton·day"}, si: []string{"t·day"}, example: "30 short ton·day or 27 t·day"},
	MassPerVolume:         {name: "a mass per volume", base: "kg/m3", us: []string{"lb/yd3"}, si: []string{"kg/m3"}, example: "1,100 lb/yd3 or 650 kg/m3"},
	VolumePerTime:         {name: "a volume per time", base: "m3/day", us: []string{"yd3/day"}, si: []string{"m3/day"}, example: "40 yd3/day or 30 m3/day"},
	AirFlow:               {name: "an air flow", base: "m3/day", us: []string{"cfm"}, si: []string{"m3/h"}, example: "1,500 cfm or 2,500 m3/h"},
	VolumePerAreaTime:     {name: "a volume per area and time", base: "m3/m2·day", us: []string{"cfm/ft2"}, si: []string{"m3/m2·h"}, example: "4 cfm/ft2 or 75 m3/m2·h"},
	VolumePerMassTime:     {name: "a volume per mass and time", base: "m3/kg·day", us: []string{"cfm/short ton"}, si: []string{"m3/t·h"}, example: "8 cfm/short ton or 15 m3/t·h"},
	Power:                 {name: "a power", base: "kW", us: []string{"kW"}, si: []string{"kW"}, example: "15 kW or 20 hp"},
	Energy:                {name: "an energy", base: "kJ", us: []string{"kWh"}, si: []string{"kWh"}, example: "120 kWh"},
	EnergyPerMass:         {name: "an energy per mass", base: "kJ/kg", us: []string{"Btu/lb"}, si: []string{"kJ/kg"}, example: "9,900 Btu/lb or 23 MJ/kg"},
	PowerPerTemperature:   {name: "a power per temperature difference", base: "kW/K", us: []string{"Btu/h·°F"}, si: []string{"W/K"}, example: "60 Btu/h·°F or 30 W/K"},
	Rate:                  {name: "a rate per time", base: "1/day", us: []string{"1/day"}, si: []string{"1/day"}, example: "0.05 1/day or 5 %/day"},
	AnnualRate:            {name: "a yearly rate", base: "1/year", us: []string{"%/year"}, si: []string{"%/year"}, example: "3 %/year"},
	Money:                 {name: "an amount of money", base: "USD", us: []string{"USD"}, si: []string{"USD"}, example: "42,000 USD"},
	MoneyPerMass:          {name: "a price per mass", base: "USD/kg", us: []string{"USD/short ton"}, si: []string{"USD/t"}, example: "55 USD/short ton or 60 USD/t"},
	MoneyPerVolume:        {name: "a price per volume", base: "USD/m3", us: []string{"USD/yd3"}, si: []string{"USD/m3"}, example: "12 USD/yd3 or 16 USD/m3"},
	MoneyPerTime:          {name: "an amount of money per time", base: "USD/day", us: []string{"USD/year"}, si: []string{"USD/year"}, example: "90,000 USD/year"},
	MoneyPerHour:          {name: "an amount of money per time", base: "USD/h", us: []string{"USD/h"}, si: []string{"USD/h"}, example: "38 USD/h"},
	MoneyPerEnergy:        {name: "a price per energy", base: "USD/kJ", us: []string{"USD/kWh"}, si: []string{"USD/kWh"}, example: "0.12 USD/kWh"},
	VolumePerYear:         {name: "a volume per year", base: "m3/year", us: []string{"yd3/year"}, si: []string{"m3/year"}, example: "1,200 yd3/year or 900 m3/year"},
	Years:                 {name: "a number of years", base: "year", us: []string{"year"}, si: []string{"year"}, example: "12 year"},
	MassPerEnergy:         {name: "a mass per energy", base: "kg/kJ", us: []string{"lb/kWh"}, si: []string{"kg/kWh"}, example: "0.9 lb/kWh or 0.4 kg/kWh"},
	MassPerLiquid:         {name: "a mass per volume of a liquid", base: "kg/m3", us: []string{"lb/gal"}, si: []string{"kg/L"}, example: "22 lb/gal or 2.7 kg/L"},
	Liquid:                {name: "a volume of a liquid", base: "m3", us: []string{"gal"}, si: []string{"L"}, example: "500 gal or 1,900 L"},
	MoneyPerLiquid:        {name: "a price per volume of a liquid", base: "USD/m3", us: []string{"USD/gal"}, si: []string{"USD/L"}, example: "4.20 USD/gal or 1.1 USD/L"},
	MassPerArea:           {name: "a mass per area", base: "kg/m2", us: []string{"lb/ft2"}, si: []string{"kg/m2"}, example: "0.02 lb/ft2 or 0.1 kg/m2"},
}

// Dimensions returns every dimension.
func Dimensions() []Dimension {
	all := make([]Dimension, len(dimensionTable))
	for i := range all {
		all[i] = Dimension(i)
	}
	return all
}

// String returns the name with its article, as messages use it: "a mass".
func (d Dimension) String() string { return dimensionTable[d].name }

// Example returns a quantity of the dimension as a user would write it, often
// one in US units and one in SI joined by "or".
func (d Dimension) Example() string { return dimensionTable[d].example }

// Bare reports whether a quantity of the dimension is written without a unit.
func (d Dimension) Bare() bool { return dimensionTable[d].bare }

// bases holds the parsed base unit of every dimension.
var bases = parseBases()

func parseBases() []compound {
	list := make([]compound, len(dimensionTable))
	for d, row := range dimensionTable {
		c, err := parseCompound(row.base)
		if err != nil {
			panic("units: base unit " + row.base + ": " + err.Error())
		}
		list[d] = c
	}
	return list
}
