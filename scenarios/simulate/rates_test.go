package simulate_test

// withRates gives the small file all keys of decay and intake.
var withRates = []string{
	"  readily_degradable: 56 %", "  readily_degradable: 44 %\n  rapidly_degradable: 12 %",
	"  wall_loss: 25 W/K", `  wall_loss: 25 W/K

decay:
  temperature_curve: cardinal
  least_temperature: -5 °C
  best_temperature: 57 °C
  most_temperature: 78 °C
  rapidly: 0.38 1/day
  readily: 0.056 1/day
  slowly: 0.0028 1/day
  coarse: 0.25
  first_activity: 2 %
  growth: 3 1/day
intake:
  cake: 18 °C
  chips: -1 °C
  freezing: true`,
}

// rates are the keys of decay and intake. What is livelier oxidises more.
var rates = []option{
	{key: "cake.rapidly_degradable", old: "  rapidly_degradable: 12 %", new: "  rapidly_degradable: 6 %", moves: down(ammonia), base: withRates},
	{key: "decay.temperature_curve", old: "  temperature_curve: cardinal\n  least_temperature: -5 °C\n  best_temperature: 57 °C\n  most_temperature: 78 °C\n", new: "  temperature_curve: rise and fall\n", base: withRates},
	{key: "decay.least_temperature", old: "least_temperature: -5 °C", new: "least_temperature: 0 °C", base: withRates},
	{key: "decay.best_temperature", old: "best_temperature: 57 °C", new: "best_temperature: 50 °C", base: withRates},
	{key: "decay.most_temperature", old: "most_temperature: 78 °C", new: "most_temperature: 66 °C", base: withRates},
	{key: "decay.rapidly", old: "  rapidly: 0.38", new: "  rapidly: 0.2", base: withRates},
	{key: "decay.readily", old: "  readily: 0.056", new: "  readily: 0.03", moves: down(oxidised), base: withRates},
	{key: "decay.slowly", old: "  slowly: 0.0028", new: "  slowly: 0.0056", moves: up(oxidised), base: withRates},
	{key: "decay.coarse", old: "  coarse: 0.25", new: "  coarse: 0.5", base: withRates},
	{key: "decay.first_activity", old: "first_activity: 2 %", new: "first_activity: 0.01 %", moves: down(oxidised), base: withRates},
	{key: "decay.growth", old: "growth: 3 1/day", new: "growth: 1 1/day", moves: down(oxidised), base: withRates},
	{key: "intake.cake", old: "  cake: 18 °C", new: "  cake: 25 °C", moves: up(oxidised), base: withRates},
	{key: "intake.chips", old: "  chips: -1 °C", new: "  chips: 8 °C", moves: up(oxidised), base: withRates},
	{key: "intake.freezing", old: "  freezing: true", new: "  freezing: false", moves: up(oxidised), base: withRates},
}
