// Package stat holds the statistics of the reports: numbers in, numbers out.
// It knows nothing of journals or reports; each function's comment gives its
// formula and the publication that it comes from.
//
// What data can do has an answer everywhere: nothing known, none of n, all of
// n, one group. Where a figure does not exist, the function returns a second
// value, ok, that is false; no function passes NaN on in silence. What only a
// caller's mistake can do (a negative count, more successes than trials, a
// confidence outside 0 to 1) panics with a message that starts "stat:".
package stat
