package simulate

// FreeOf is for tests that bring runs of their own.
var FreeOf = freeOf
