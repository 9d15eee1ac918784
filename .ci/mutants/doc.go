// Command mutants plants faults in the code, one after the other, and runs the
// tests that should notice. A fault that none notices is a gap in the tests.
//
//	go run ./.ci/mutants                    # all of them: some minutes
//	go run ./.ci/mutants -only 'calendar|mix'   # by name or file
//	go run ./.ci/mutants -check             # only see that the texts are there
//
// The faults are in faults.txt beside this file, which tells how to write one. No
// file of the checkout is touched: the compiler is shown a copy in its place. It
// ends with 1 when a fault survives that may not, when the text of a fault is not
// in its file exactly once, when what is planted does not compile, and when the
// tests named do not pass without any fault.
package main
