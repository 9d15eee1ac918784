package page

import (
	"crypto/subtle"
	"mime"
	"net"
	"net/http"
	"path"
	"slices"
	"strings"
)

// tokenHeader is the header in which the page sends its token.
const tokenHeader = "Loamcast-Token"

// mostBody is the greatest size of a request, bytes: a file of the greatest size that is
// read, in JSON, with room for dials.
const mostBody = 4 << 20

// policy lets the page use its own script, sheet and answers and nothing else.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// guard lets requests through that come from the page itself.
type guard struct {
	address, token string
	still, work    http.Handler
}

// ServeHTTP refuses requests to another host, which a name that leads here would bring;
// those of other pages; those without the token; and what is too large.
func (g *guard) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	h := w.Header()
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
	hosts := g.hosts()
	if !slices.Contains(hosts, r.Host) {
		refuse(w, http.StatusMisdirectedRequest, "this page is for this machine alone")
		return
	}
	if origin := r.Header.Get("Origin"); origin != "" || r.Method != http.MethodGet {
		if host, ok := strings.CutPrefix(origin, "http://"); !ok || host != r.Host {
			refuse(w, http.StatusForbidden, "another page may not ask here")
			return
		}
	}
	if site := r.Header.Get("Sec-Fetch-Site"); site != "" && site != "same-origin" && (site != "none" || r.Method != http.MethodGet) {
		refuse(w, http.StatusForbidden, "another page may not ask here")
		return
	}
	if path.Clean(r.URL.Path) != r.URL.Path {
		http.NotFound(w, r)
		return
	}
	if !strings.HasPrefix(r.URL.Path, "/api/") {
		g.still.ServeHTTP(w, r)
		return
	}
	if subtle.ConstantTimeCompare([]byte(r.Header.Get(tokenHeader)), []byte(g.token)) != 1 {
		refuse(w, http.StatusForbidden, "the token is missing or old; open the address that the program has printed")
		return
	}
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); r.Method == http.MethodPost && (err != nil || kind != "application/json") {
		refuse(w, http.StatusUnsupportedMediaType, "requests are JSON")
		return
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostBody)
	g.work.ServeHTTP(w, r)
}

// hosts are the names under which the page is reached.
func (g *guard) hosts() []string {
	_, port, err := net.SplitHostPort(g.address)
	if err != nil {
		return []string{g.address}
	}
	return []string{g.address, net.JoinHostPort("localhost", port)}
}

// refuse says in plain text why a request is not answered.
func refuse(w http.ResponseWriter, status int, why string) { http.Error(w, why, status) }
