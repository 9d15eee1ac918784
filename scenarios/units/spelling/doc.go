// Package spelling finds the known word that a mistyped one was probably
// meant to be. It knows no language and no units; distances are counted in
// characters.
package spelling
