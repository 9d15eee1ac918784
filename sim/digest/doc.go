// Package digest identifies values by all that they are made of: two values have the same
// digest if nothing in them differs, to the last bit, and any difference gives another.
// What was computed from a value can be found again by it.
//
// It looks at fields whether they are exported or not, and follows pointers, so that a
// field that is added later counts without anybody thinking of it.
package digest
