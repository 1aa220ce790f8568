package pedigree_test

import (
	"fmt"

	"github.com/budstick/budstick/report/pedigree"
)

func Example() {
	p, err := pedigree.New([]pedigree.Individual{
		{Name: "Redwing"},
		{Name: "Amberlight", SeedParent: "Redwing"},
		{Name: "Emberlight", CloneOf: "Amberlight"}, // a sport
		{Name: "Firstfig", SeedParent: "Emberlight", PollenParent: "Redwing"},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	table, _ := p.Coancestry("Firstfig", "Amberlight")
	inbred, _ := p.Inbreeding("Firstfig")
	fmt.Println(table, inbred)
	// Output: [[0.625 0.375] [0.375 0.5]] [0.25]
}
