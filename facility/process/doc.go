// Package process turns time into decomposition. It follows a load of mixed
// material in an enclosure (a sealed vessel on forced air, or a curing pile)
// through a temperature program in the weather of a month, and tells what is left,
// what went into the air, when time-temperature criteria are met, and why a load
// stays cold.
//
// It is not a plant: it knows one load at a time, no calendar and no queue. It
// resolves no gradients inside a load, and it plans for compliance without
// certifying it.
//
// Units: kg, m3, °C, kJ, hours since the start of the course; rate constants per
// day; air in m3 at the site's inlet conditions, oxygen in % by volume of dry
// air; criteria in °C and hours.
//
// The nouns:
//
//   - Model: everything that does not change from load to load.
//   - Course: one load, integrated; Sample: its state at the end of a step.
//   - Criterion: a time-temperature requirement as data; Reading: a mean
//     temperature on which it is judged.
//   - Finding: a limit that a cold load breaks.
//   - Responses: a table of standard courses; Response: one load, interpolated.
//   - Biofilter: bed size for the exhaust air.
//
// # Rate
//
// A class of m kg decays at
//
//	−dm/dt = m·k20·a·g(T)·fw(w)·fa(ε)·fo(c)   [kg/d]
//	g(T)  = 1.066^(T−20) − 1.21^(T−60), not below 0
//	fw(w) = 1/(exp(7.0622 − 17.684·w) + 1),  w water per wet mass
//	fa(ε) = 1/(exp(3.4945 − 23.675·ε) + 1),  ε free air space
//	fo(c) = c/(c + 2),                       c oxygen, % by volume
//
// Forms and constants after Haug, The Practical Handbook of Compost Engineering
// (1993), from memory. g peaks near 71.6 °C and vanishes near 80.2 °C, while
// practice puts best operation at 45–65 °C; TemperatureCurve is an input for
// that reason, and Cardinal one with an optimum. The activity a is 1, or grows from
// little by Awakening. LivelyKinetics has both, for cake of which a part degrades
// within days. Coarse matter decays CoarseFactor times as fast (an assumption for
// its smaller surface).
//
// With an AirPath, air reaches only a share of a load, by the free air space that the
// load has when it begins; fa is then 1 in that share, and the rest does not decay:
//
//	share = 1/(1 + exp((Half − ε)/Spread))
//
// A criterion of kind Aired asks for a least share.
//
// # Heat
//
//	C·dT/dt = q·O2 − U·A·(T − Ta) − G·[(ca + Wi·cv)·(T − Ta) + (Wo − Wi)·r(T)]
//	C = cs·dry + cw·water   [kJ/K]
//
// with oxygen uptake O2 (kg/h) from the stoichiometry in package material,
// q = 14,000 kJ/kg O2 (the other convention, about 23 kJ per g of biosolids
// volatiles, is not consistent with 1.99 kg O2 per kg of them and is not used),
// dry air G (kg/h), its humidity ratios at inlet and exit, and the heat of
// vaporisation r at the load's temperature. Water that freezes gives up 334 kJ/kg at
// 0 °C (off unless HeatCapacity.Fusion says so). The exit has the load's temperature
// and Enclosure.Exhaust times the water activity 1 − exp(−10·water/dry), an
// assumption that acts below some 25 % moisture only. Air does not give water to
// a load. Of the water lifted the fraction Returned drips back, its heat lost
// through the lid. Water above the holding capacity drains with a time constant.
//
// # Air
//
// The flow is the largest of the segment's minimum, what keeps LeastOxygen in
// the pores, and what holds the segment's setpoint, within the blower's share.
// Pores are well mixed and follow the uptake at once:
//
//	c = 20.95 − 100·(28.966/31.998)·O2/G,  O2 = O2max·c/(c + 2)
//
// a quadratic in c; the flow that holds a temperature is another one. With a
// material.Structure, a pile without a blower draws air by its permeability,
// ε³/(1−ε)².
//
// A segment lasts its time, or longer until a criterion is met that it waits for, its
// longest time at most; its setpoint may come down by a ramp from the temperature that
// the load has when it begins: max(setpoint, T − ramp·t). Below its turndown a blower
// blows on and off: the mean, and with it the course, is the same.
//
// # Handling
//
//	T after = max(0, Ta + max(0, (T − Ta)·(1 − share) − drop)),  T ≤ Ta or T ≤ 0 °C: T
//
// of a load that is tipped out and piled up, where its pile begins at what it was tipped
// with, and of a pile whenever it is turned. The heat is booked in Energy.Handling.
//
// # Drying
//
// Model.Dries is the same enclosure for a load that has only to get dry: air G beyond
// what cooling asks for, until somebody who looks at the moisture ends it. Without heat
// of its own the load comes to the temperature T of
//
//	(ca + Wi·cv)·(Ta − T) = r·(W(T) − Wi)
//
// and loses G·(W(T) − Wi) an hour: with 100 m3/t·h of air of 20 °C and 50 % humidity
// some 50 kg per dry tonne in a week, in the cold next to nothing.
//
// # Integration
//
// Implicit midpoint in temperature; moisture and free air space at the middle of a step
// from how the load has dried so far; first-order decay within a step in closed form.
// A course asked for by itself has equal steps, of half an hour unless set otherwise;
// those of the table follow the course, short while it warms up or cools, long while
// air holds the setpoint, where the flow follows from the heat balance without a
// search. Masses change by package material's operations only, so each is accounted for.
// Heat is booked apart, in Energy, and closes to rounding.
package process
