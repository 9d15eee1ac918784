package document

import "loamcast/scenarios/answer"

// Report is several answers about one facility in the order of a reader, to be handed
// on. What renders it shows all rows of all tables, whatever their rank.
type Report struct {
	Basis    answer.Basis
	Chapters []Chapter
	Cautions []answer.Caution // of all answers
}

// Chapter is a part of a report, and the name by which it is linked to.
type Chapter struct {
	Name, Title string
	Parts       []ReportPart
}

// ReportPart is an answer in a chapter, under a title of its own where the chapter has
// several.
type ReportPart struct {
	Title string
	*Document
}

// Add adds a chapter of one answer.
func (r *Report) Add(name, title string, parts ...ReportPart) {
	r.Chapters = append(r.Chapters, Chapter{name, title, parts})
}
