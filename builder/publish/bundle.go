package publish

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"

	"github.com/evanw/esbuild/pkg/api"

	"keelpath/builder/say"
)

// engines are the oldest browsers that the styles are written down for.
var engines = []api.Engine{
	{Name: api.EngineChrome, Version: "80"},
	{Name: api.EngineFirefox, Version: "78"},
	{Name: api.EngineSafari, Version: "14.1"},
}

// bundle joins an entry file of the site's own tree and all it imports, and
// makes the whole small. What it says is in the language of w. The entry is a script (.ts) or a style sheet (.css); ext is
// that of the bundle.
func bundle(files fs.FS, w *say.Words, entry string) (data []byte, ext string, err error) {
	o := api.BuildOptions{
		EntryPoints:       []string{entry},
		Bundle:            true,
		Write:             false,
		Outdir:            "/",
		LogLevel:          api.LogLevelSilent,
		Charset:           api.CharsetUTF8,
		LegalComments:     api.LegalCommentsNone,
		MinifyWhitespace:  true,
		MinifyIdentifiers: true,
		MinifySyntax:      true,
		TsconfigRaw:       "{}", // no file of the machine at hand may change the bundle
		Plugins:           []api.Plugin{embedded(files, w)},
		Define:            map[string]string{"OTHER_LANGUAGE": strconv.FormatBool(w.Lang != say.English().Lang)},
	}
	ext = ".css"
	if path.Ext(entry) == ".ts" {
		ext, o.Target, o.Format = ".js", api.ES2018, api.FormatIIFE
	} else {
		o.Engines = engines
	}
	r := api.Build(o)
	if err := bundleError(r.Errors); err != nil {
		return nil, "", err
	}
	if err := bundleError(r.Warnings); err != nil {
		return nil, "", err
	}
	if len(r.OutputFiles) != 1 {
		return nil, "", fmt.Errorf("bundle site/%s: %d files came out, and one was expected", entry, len(r.OutputFiles))
	}
	return r.OutputFiles[0].Contents, ext, nil
}

// hashedName gives "assets/site.0a1b2c3d4e.css".
func hashedName(base, ext string, data []byte) string {
	sum := sha256.Sum256(data)
	return "assets/" + base + "." + hex.EncodeToString(sum[:5]) + ext
}

// namespace keeps the embedded files apart from the machine's own.
const namespace = "site"

// loaders says how each kind of source is read.
var loaders = map[string]api.Loader{".ts": api.LoaderTS, ".css": api.LoaderCSS}

// embedded lets the bundler read from files only, never from the disk.
func embedded(files fs.FS, w *say.Words) api.Plugin {
	return api.Plugin{Name: namespace, Setup: func(b api.PluginBuild) {
		b.OnResolve(api.OnResolveOptions{Filter: ".*"}, func(a api.OnResolveArgs) (api.OnResolveResult, error) {
			name := a.Path
			if a.Kind != api.ResolveEntryPoint {
				name = path.Join(path.Dir(a.Importer), a.Path)
				if path.Ext(name) == "" {
					name += ".ts"
				}
			}
			data, err := fs.ReadFile(files, name)
			if err != nil {
				return api.OnResolveResult{}, fmt.Errorf("there is no file site/%s", name)
			}
			if ext := path.Ext(name); loaders[ext] == 0 { // a typeface, which lies beside the style under the name that its bytes give it
				return api.OnResolveResult{Path: path.Base(hashedName(strings.TrimSuffix(path.Base(name), ext), ext, data)), External: true}, nil
			}
			return api.OnResolveResult{Path: name, Namespace: namespace}, nil
		})
		b.OnLoad(api.OnLoadOptions{Filter: ".*", Namespace: namespace}, func(a api.OnLoadArgs) (api.OnLoadResult, error) {
			loader, ok := loaders[path.Ext(a.Path)]
			if !ok {
				return api.OnLoadResult{}, fmt.Errorf("site/%s is neither a script nor a style sheet", a.Path)
			}
			data, err := fs.ReadFile(files, a.Path)
			if a.Path == saidScript {
				data, err = saidIn(files, w)
			}
			if err != nil {
				return api.OnLoadResult{}, err
			}
			text := string(data)
			return api.OnLoadResult{Contents: &text, Loader: loader}, nil
		})
	}}
}

// The script that says what the client's script says, and the module with the texts, which the bundler makes.
const (
	wordsScript = "client/words/words.ts"
	saidScript  = "client/words/said.ts"
)

// saidIn gives the module with the texts in a language.
func saidIn(files fs.FS, w *say.Words) ([]byte, error) {
	script, err := fs.ReadFile(files, wordsScript)
	if err != nil {
		return nil, err
	}
	names, err := w.InScript(string(script))
	if err != nil {
		return nil, fmt.Errorf("site/%s: %w", wordsScript, err)
	}
	return w.Script(names), nil
}

// bundleError makes one error of the bundler's messages, each with its place.
func bundleError(ms []api.Message) error {
	var all []string
	for _, m := range ms {
		text := m.Text
		if l := m.Location; l != nil {
			text = fmt.Sprintf("site/%s:%d:%d: %s", strings.TrimPrefix(l.File, namespace+":"), l.Line, l.Column+1, text)
		}
		all = append(all, text)
	}
	if len(all) == 0 {
		return nil
	}
	slices.SortFunc(all, cmp.Compare[string])
	return errors.New(strings.Join(all, "\n"))
}
