package rule

import "github.com/budstick/budstick/grammar/finding"

// The rules about numbers, days and money, which are found while an entry is
// read.
var (
	numberRule = &Rule{
		Name: "number", Severity: finding.Error,
		Summary: "something is no number, or not the kind of number that is needed",
		Why:     "Plants, seed and fruit are counted in whole numbers; amounts have no sign; nobody sells 2.5 trees.",
		Bad:     bench + "2026-11-20\nsell 2.5 of AM26 to Bob at 19.00 each\n",
		Good:    bench + "2026-11-20\nsell 2 of AM26 to Bob at 19.00 each\n",
	}
	zeroRule = &Rule{
		Name: "zero", Severity: finding.Error,
		Summary: "a count is 0",
		Why:     "Nothing done is no entry. Only a verdict may be 0, since `0 took` says a lot.",
		Bad:     kestrel + "cull 0 of QB25 because \"none was bad\"\n",
		Good:    kestrel + "note QB25 \"none was bad\"\n",
	}
	decimalComma = &Rule{
		Name: "decimal-comma", Severity: finding.Error,
		Summary: "a comma stands between two digits",
		Why:     "One half of the world reads 1,200 as twelve hundred and the other as one and a fifth. A point is the only decimal sign here, and thousands are not parted.",
		Bad:     kestrel + "spend 64,20 on pots for QB25\n",
		Good:    kestrel + "spend 64.20 on pots for QB25\n",
	}
	unitRule = &Rule{
		Name: "unit", Severity: finding.Error,
		Summary: "a quantity is in a unit that does not fit it",
		Why:     "A caliper in litres or a working time in days is a slip of the pen.",
		Bad:     kestrel + "graft 40 of QB25 with M7 by cleft as AM26 caliper 9 ml worker Ines\n",
		Good:    kestrel + "graft 40 of QB25 with M7 by cleft as AM26 caliper 9 mm worker Ines\n",
	}
	currencyRule = &Rule{
		Name: "currency", Severity: finding.Error,
		Summary: "a currency is no code of ISO 4217",
		Why:     "A dollar sign means twenty currencies; EUR and AUD mean one each, and how many decimals it has.",
		Bad:     "farm \"Kestrel Hollow\" currency EURO\n",
		Good:    "farm \"Kestrel Hollow\" currency EUR\n",
	}
	monthRule = &Rule{
		Name: "month", Severity: finding.Error,
		Summary: "a word is no month, or no run of months",
		Why:     "Months are written by name or by its first three letters: October, Oct, May-Jun.",
		Bad:     "farm \"Kestrel Hollow\" currency EUR season from Winter\n",
		Good:    "farm \"Kestrel Hollow\" currency EUR season from October\n",
	}
	dateRule = &Rule{
		Name: "date", Severity: finding.Error,
		Summary: "a date is not written year first, or is no day of the calendar",
		Why:     "03-04-2026 is in March for some and in April for others. ISO 8601 reads one way everywhere: 2026-04-03.",
		Bad:     "20-03-2026\nnote \"first swallow\"\n",
		Good:    "2026-03-20\nnote \"first swallow\"\n",
	}
	weekdayRule = &Rule{
		Name: "weekday", Severity: finding.Error,
		Summary: "the weekday behind a date is not that date's",
		Why:     "A weekday need not be written; where it is, it finds the slip in the date.",
		Bad:     "2026-03-02 Tue\nnote \"first swallow\"\n",
		Good:    "2026-03-02 Mon\nnote \"first swallow\"\n",
	}
	dayOrder = &Rule{
		Name: "day-order", Severity: finding.Error,
		Summary: "a day comes after a later one",
		Why: "A journal is only added to at its end, so its days run forwards; that is what makes it a record. " +
			"What was forgotten is written under today, with `happened` and the day it was.",
		Bad:  kestrel + "\n2026-03-02\nnote QB25 \"leafing out\"\n2026-02-20\nlose 2 of QB25 to frost\ncause frost\n",
		Good: kestrel + "\n2026-03-02\nnote QB25 \"leafing out\"\nlose 2 of QB25 to frost happened 2026-02-20\ncause frost\n",
	}
	countryRule = &Rule{
		Name: "country", Severity: finding.Error,
		Summary: "a country is not its three letters by ISO 3166-1",
		Why:     "Papers that go with plants name countries by these letters.",
		Bad:     "farm \"Kestrel Hollow\" currency EUR country Spain\n",
		Good:    "farm \"Kestrel Hollow\" currency EUR country ESP\n",
	}
	priceRule = &Rule{
		Name: "price", Severity: finding.Error,
		Summary: "a price is not per what is sold",
		Why:     "Plants are priced each and fruit by its weight, or the total is not certain.",
		Bad:     kestrel + "sell 20 kg fruit of M7 to Bob at 3.20 each\n",
		Good:    kestrel + "sell 20 kg fruit of M7 to Bob at 3.20 per kg\n",
	}
	sealRule = &Rule{
		Name: "seal", Severity: finding.Error,
		Summary: "a seal is not as the tool wrote it",
		Why:     "A seal closes all that stands above it, so that a later change of any byte is found. It is written by the tool and never by hand.",
		Bad:     kestrel + "seal sha256 9f2c6b0e\n",
		Good:    sealed(kestrel),
	}
)
