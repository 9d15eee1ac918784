// Package study simulates variants of one facility: other growth, more vessels,
// steps taken, a part of the horizon. Every planning answer asks it.
//
// A run is a case and the number of a replication. The same replication means the
// same luck in every case: the same days of production, weather, breakdowns and
// deliveries, and the same values of the uncertain inputs (common random
// numbers). What comes back depends on the file and its seed alone, not on the
// number of workers or on which other runs were asked for.
//
// All runs of a study share its workers. A part of an answer that nothing waits for
// yet may go on beside another, and gives way to it.
//
// It answers nothing itself and knows nothing of screens.
package study
