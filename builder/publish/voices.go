package publish

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"path"

	"html/template"

	"keelpath/builder/shelf"
)

// asidesScript has what few readers come to need; the build writes behind it where the words of each voice are.
const asidesScript = "client/planner/asides.ts"

// partVoice is what stands in the planner's page in the reader's own voice, said in another: the list of topics and the safety screen.
const partVoice = "voice"

// inVoices adds a maker for each of the other voices. It makes the planner's parts that are said in it, and has all else from m.
func (m *maker) inVoices(files fs.FS) error {
	for _, l := range m.lib.Voices {
		o := &maker{lib: l, voice: l.Voice, folder: m.folder, plan: m.plan, found: m.found, before: m.before}
		var err error
		if o.templates, err = template.New("pages").Funcs(functions(l.Say)).ParseFS(files, "pages/*.html"); err != nil {
			return fmt.Errorf("read the page templates: %w", err)
		}
		o.templates.Funcs(template.FuncMap{"source": o.source, "prompt": o.prompt})
		o.assets = maps.Clone(m.assets)
		maps.Copy(o.assets, o.later(files))
		o.stock = shelf.NewStock(l, o.plan, func(from string) (string, error) {
			a, err := o.asset(from)
			return a.name, err
		})
		m.others = append(m.others, o)
	}
	return nil
}

// spokenParts are those that a maker of another voice makes.
func (m *maker) spokenParts() []entry {
	return append(m.spokenOf(m.lib.PatientTrees()), entry{from: m.part(partVoice) + ".js", behind: (*maker).voicePart})
}

// voicePart is what the page itself says in a voice.
func (m *maker) voicePart() ([]byte, error) {
	v, err := m.inPlanner()
	if err != nil {
		return nil, err
	}
	model := PlannerView{PageView: v.view}
	if err := v.spoken(&model); err != nil {
		return nil, err
	}
	model.Voices = true
	html, err := m.made("planner-spoken", model)
	if err != nil {
		return nil, err
	}
	out := part{HTML: html, Prompts: plannerData(v.shelf).Prompts, Voice: m.voice, Tells: m.lib.ToldBy(m.voice), Said: v.say().Voiced("script"), At: map[string]string{}}
	for _, id := range v.shelf.General() {
		out.Prompts[id.ID.S] = promptData(id)
	}
	bases := []string{partAbout, partPrompts}
	for _, t := range v.shelf.PatientTrees() {
		bases = append(bases, partOfTree(t.ID.S))
	}
	for _, base := range bases {
		file, err := v.shelf.Asset(m.part(base) + ".js")
		if err != nil {
			return nil, err
		}
		out.At[base] = v.root + file
	}
	return out.script(m.part(partVoice))
}

// asides writes behind the script where the part of each voice is, beside it.
func (m *maker) asides() ([]byte, error) {
	voices := map[string]string{}
	for _, o := range m.others {
		a, err := o.asset(o.part(partVoice) + ".js")
		if err != nil {
			return nil, err
		}
		voices[o.voice] = path.Base(a.name)
	}
	html, err := m.made("planner-offer", nil)
	if err != nil {
		return nil, err
	}
	offered, err := json.Marshal(html)
	if err != nil {
		return nil, err
	}
	table, err := json.Marshal(voices)
	return fmt.Appendf(nil, "keelpathAsides.voices=%s;keelpathAsides.offered=%s;\n", table, offered), err
}
