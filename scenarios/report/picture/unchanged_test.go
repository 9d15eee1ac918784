package picture

func unchanged(v float64) float64 { return v }
