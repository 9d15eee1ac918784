// Package document is the form in which every answer speaks: its head, a
// headline, blocks of text, tables and figures in the order of a reader, and
// cautions.
//
// A document holds plain data in SI. It is made once, by Document of the
// answer, and rendered many times: the renderer chooses units, widths and
// paper, and decides nothing. Words of judgement, what is shown and with how
// many decimals are the document's; how a line breaks is the renderer's.
//
// A number in running text is a [Part], such as [Show](12000, Mass), which is
// written only when the system of units is known. Tables have typed columns;
// the same columns name the members of JSON and the columns of CSV, where the
// unit is part of the name.
package document
