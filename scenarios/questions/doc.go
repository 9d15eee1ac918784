// Package questions lists every question that can be asked of a facility file.
package questions
