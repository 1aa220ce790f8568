// Budstick reads the journal of a nursery that propagates fruit trees, finds
// what contradicts itself in it, and makes reports of it.
package main

import "os"

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv)) }
