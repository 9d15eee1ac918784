// Package sidebyside compares two facility files: what they say differently, key by key,
// and what that does, in the same production, weather, breakdowns and deliveries. It is
// for files that a person has changed by hand; options within a file have a question of
// their own.
package sidebyside
