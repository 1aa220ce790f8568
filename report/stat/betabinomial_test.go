package stat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// With shape 1, 1 every count is as likely as any other.
func TestBetaBinomialUniform(t *testing.T) {
	d := BetaBinomial{1, 1, 9}
	for k := range 10 {
		near(t, "chance", d.Prob(k), 0.1, 1e-12)
		near(t, "at least", d.AtLeast(k), 1-float64(k)/10, 1e-12)
	}
}

func TestBetaBinomialProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := BetaBinomial{
			Alpha: math.Exp(rapid.Float64Range(-3, 6).Draw(t, "log alpha")),
			Beta:  math.Exp(rapid.Float64Range(-3, 6).Draw(t, "log beta")),
			N:     rapid.IntRange(0, 80).Draw(t, "n"),
		}
		var sum, mean float64
		for k := d.N; k >= 0; k-- {
			sum += d.Prob(k)
			mean += float64(k) * d.Prob(k)
			if math.Abs(sum-d.AtLeast(k)) > 1e-10 {
				t.Fatalf("at least %d: %v, but the chances add up to %v", k, d.AtLeast(k), sum)
			}
			if math.Abs(d.AtMost(k-1)+d.AtLeast(k)-1) > 1e-12 {
				t.Fatalf("at most %d and at least %d do not add up", k-1, k)
			}
		}
		if math.Abs(sum-1) > 1e-10 {
			t.Fatalf("all chances add up to %v", sum)
		}
		if want := float64(d.N) * d.Alpha / (d.Alpha + d.Beta); math.Abs(mean-want) > 1e-8*(1+want) {
			t.Fatalf("mean is %v, want %v", mean, want)
		}
		sure := d.Sure(0.9)
		if d.AtLeast(sure) < 0.9-1e-9 || sure < d.N && d.AtLeast(sure+1) >= 0.9 {
			t.Fatalf("%d is not the last count with chance 0.9", sure)
		}
	})
}

// The likelihood of the germination plates under the coefficients and rho
// fitted with R 4.2.2, cross-checked there with VGAM 1.1-7: the same value,
// and no higher one a small step away in any direction.
func TestBetaBinomialOfPlates(t *testing.T) {
	var all struct {
		Fit struct {
			LogLik float64 `json:"loglik"`
			Rho    float64
			Coef   map[string]float64
		} `json:"beta_binomial"`
	}
	readCase(t, "03_seed_germination_plates.json", &all)
	rows := plates(t)
	logLik := func(rho float64, coef map[string]float64) float64 {
		var sum float64
		for _, r := range rows {
			eta := coef["(Intercept)"] + coef["temp"+r["temp"]] + coef["concf"+r["conc"]]
			mean, weight := 1/(1+math.Exp(-eta)), (1-rho)/rho
			tally := plateTally(t, r)
			sum += BetaBinomial{mean * weight, (1 - mean) * weight, tally.N}.logProb(tally.X)
		}
		return sum
	}
	top := logLik(all.Fit.Rho, all.Fit.Coef)
	near(t, "log likelihood", top, all.Fit.LogLik, 1e-4)
	for name := range all.Fit.Coef {
		for _, step := range []float64{-0.01, 0.01} {
			moved := map[string]float64{}
			for n, v := range all.Fit.Coef {
				moved[n] = v
			}
			moved[name] += step
			if got := logLik(all.Fit.Rho, moved); got >= top {
				t.Errorf("%s moved by %v: log likelihood rises from %v to %v", name, step, top, got)
			}
		}
	}
	if above, below := logLik(all.Fit.Rho+0.001, all.Fit.Coef), logLik(all.Fit.Rho-0.001, all.Fit.Coef); above >= top || below >= top {
		t.Errorf("rho moved: log likelihood rises from %v to %v or %v", top, above, below)
	}
}
