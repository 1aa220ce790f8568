package rule

import (
	"reflect"
	"testing"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
)

// A memory changes nothing but how long a check takes: names that come, go and
// change are found alike, or not, as without it.
func TestMemoryForgetsInTime(t *testing.T) {
	var m Memory
	for _, names := range []string{
		"", "party \"Harbour Street market\" as customer\n",
		"party \"Harbour Street market\" as customer\nparty \"Harbor Street market\" as customer\n",
		"party \"Harbor Street market\" as customer\nparty \"Harbour Street market\" as customer\n",
		"party \"Harbour Street market\" as customer\nplace shade1\nplace shadel\n",
		"place shade1\nplace shadel\n", "place shade1\n", "",
	} {
		page := entry.Read(source.New("x.bud", []byte(kestrel+names)))
		n := nursery.Replay([]*entry.Page{page}, 0)
		if got, want := m.Check(n), Check(n); !reflect.DeepEqual(got, want) {
			t.Errorf("after %q: %v, want %v", names, got, want)
		}
	}
}
