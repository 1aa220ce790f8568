package cost_test

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
)

// reference is the part of testdata/reference/06_costing.json that can be
// written as a journal: worked examples of cost accounting, each with its source
// and address in the file. First-in-first-out and equivalent units can't: plants
// of a lot carry their average.
type reference struct {
	NormalLoss []struct { // process costing with normal and abnormal loss
		ID         string
		InputUnits int         `json:"input_units"`
		TotalCost  json.Number `json:"total_cost"`
		Rate       json.Number `json:"normal_loss_rate"`
		OutputGood int         `json:"output_good"`
		Expected   struct {
			OutputValue       json.Number `json:"output_value"`
			AbnormalLossValue json.Number `json:"abnormal_loss_value"`
		}
	} `json:"normal_loss"`
	Inventory []struct { // periodic weighted average
		ID        string
		Purchases []struct {
			Qty      int
			UnitCost int `json:"unit_cost"`
		}
		UnitsSold int `json:"units_sold"`
		Expected  struct {
			WeightedSold   json.Number `json:"weighted_cogs"`
			WeightedEnding json.Number `json:"weighted_ending"`
		}
	}
	JointCost []struct { // by physical units
		ID        string
		JointCost json.Number `json:"joint_cost"`
		Products  []struct {
			Product string
			Units   int
		}
		Expected struct{ Physical map[string]json.Number }
	} `json:"joint_cost"`
}

func loadReference(t *testing.T) (ref reference) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/reference/06_costing.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &ref); err != nil {
		t.Fatal(err)
	}
	if len(ref.NormalLoss)*len(ref.Inventory)*len(ref.JointCost) == 0 {
		t.Fatal("the reference has no such examples")
	}
	return ref
}

func TestReferenceLoss(t *testing.T) {
	for _, x := range loadReference(t).NormalLoss {
		rate, err := x.Rate.Float64()
		if err != nil {
			t.Fatal(err)
		}
		n := replay(t, hollow+fmt.Sprintf("limit loss %g %%\n\n2026-01-10\nbuy %d liners of \"Quince BA\" as QB26 for %s\n2026-02-10\nlose %d of QB26 to frost\n",
			100*rate, x.InputUnits, x.TotalCost, x.InputUnits-x.OutputGood))
		_, in, book := sums(t, n, cost.Terms{}, 0)
		near(t, x.ID+": what is left", book.Standing[0].Load.Cost(), x.Expected.OutputValue)
		near(t, x.ID+": loss of the season", in[cost.Lost].Cost(), x.Expected.AbnormalLossValue)
	}
}

func TestReferenceAverage(t *testing.T) {
	for _, x := range loadReference(t).Inventory {
		var b strings.Builder
		b.WriteString(hollow + "\n2026-01-10\n")
		var lots []string
		for i, p := range x.Purchases {
			lots = append(lots, fmt.Sprintf("QB%d/a", i+1))
			fmt.Fprintf(&b, "buy %d liners of \"Quince BA\" as %s for %d\n", p.Qty, lots[i], p.Qty*p.UnitCost)
		}
		fmt.Fprintf(&b, "join %s as QBall\nsell %d of QBall to Bob for 1.00\n", strings.Join(lots, ", "), x.UnitsSold)
		_, in, book := sums(t, replay(t, b.String()), cost.Terms{}, 0)
		near(t, x.ID+": sold", in[cost.Sold].Cost(), x.Expected.WeightedSold)
		near(t, x.ID+": left", book.Standing[0].Load.Cost(), x.Expected.WeightedEnding)
	}
}

func TestReferenceJointCost(t *testing.T) {
	for _, x := range loadReference(t).JointCost {
		var b strings.Builder
		b.WriteString(hollow + "\n2026-01-10\n")
		var lots []string
		for _, p := range x.Products {
			lots = append(lots, p.Product)
			fmt.Fprintf(&b, "buy %d liners of \"Quince BA\" as %s\n", p.Units, p.Product)
		}
		fmt.Fprintf(&b, "spend %s on sawing for %s\n", x.JointCost, strings.Join(lots, ", "))
		_, _, book := sums(t, replay(t, b.String()), cost.Terms{}, 0)
		for _, s := range book.Standing {
			near(t, x.ID+": "+s.Lot.Name, s.Load.Cost(), x.Expected.Physical[s.Lot.Name])
		}
	}
}

// near compares with a printed figure: the reference has 15 digits, an amount
// nine decimals, so they may differ by a step of the last of these.
func near(t *testing.T, what string, got money.Amount, want json.Number) {
	t.Helper()
	s := want.String()
	if whole, decimals, ok := strings.Cut(s, "."); ok && len(decimals) > money.Guard {
		s = whole + "." + decimals[:money.Guard]
	}
	off := got.Sub(amount(t, s))
	if off.Sign() < 0 {
		off = off.Neg()
	}
	if off.Cmp(amount(t, "0.000000001")) > 0 {
		t.Errorf("%s: got %s, want %s", what, got, want)
	}
}
