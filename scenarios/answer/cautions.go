package answer

// Caution is a warning that belongs with the numbers, and where it comes from.
type Caution struct{ Text, Source string }

// Cautions returns the cautions that go with every answer, most general first.
// Each begins with a sentence that can stand by itself where space is short.
func Cautions() []Caution {
	return []Caution{
		{
			"A plan, not a certificate: monitoring, records and the permitting authority decide compliance. " +
				"The program checks simulated temperatures against the criteria that the file names, and nothing else.",
			"40 CFR 503.16 and 503.17; the user's own authority decides",
		},
		{
			"Entering a vessel is confined-space entry. " +
				"Stay out where the air holds less than 19.5 % or more than 23.5 % oxygen, " +
				"or more than 10 % of the lower flammable limit.",
			"WAC 296-155-20301",
		},
		{
			"Stored chips and compost heat themselves and can catch fire. " +
				"Keep a pile within 7.6 m (25 ft) by 45.7 m (150 ft) by 76 m (250 ft).",
			"IFC 2808.3",
		},
		{
			"Turn or spread a pile that reaches 71 °C (160 °F).",
			"NC DEQ",
		},
		{
			"Use stored chips within a year.",
			"NFPA 1, 31.3.6.2",
		},
		{
			"Composting gives off gases that harm people in closed rooms. " +
				"Exposure limits: hydrogen sulfide 20 ppm at any time, ammonia 50 ppm, carbon dioxide 5,000 ppm.",
			"workplace limits, read in a third party's copy; check the rule in force",
		},
		{
			"Screening and turning raise the most dust and bioaerosols.",
			"PMC4409048",
		},
		{
			"Local codes, the permitting authority and a licensed engineer decide what may be built.",
			"general caution",
		},
	}
}
