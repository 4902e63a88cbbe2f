package exchange

// The parts of the R4 resources that Keelpath writes, in the order in which the
// standard lists them. Empty ones are left out.

type questionnaire struct {
	ResourceType   string `json:"resourceType"`
	ID             string `json:"id,omitempty"`
	URL            string `json:"url"`
	Version        string `json:"version"`
	Language       string `json:"language,omitempty"` // where it is another than the first one
	Name           string `json:"name"`
	Title          string `json:"title"`
	Status         string `json:"status"`
	Description    string `json:"description"`
	Purpose        string `json:"purpose"`
	LastReviewDate string `json:"lastReviewDate,omitempty"`
	Item           []item `json:"item"`
}

type item struct {
	Extension      []extension  `json:"extension,omitempty"`
	LinkID         string       `json:"linkId"`
	Text           string       `json:"text,omitempty"`
	Type           string       `json:"type"`
	EnableWhen     []enableWhen `json:"enableWhen,omitempty"`
	EnableBehavior string       `json:"enableBehavior,omitempty"`
	Repeats        bool         `json:"repeats,omitempty"`
	AnswerOption   []option     `json:"answerOption,omitempty"`
	Item           []item       `json:"item,omitempty"`
}

type option struct {
	Extension   []extension `json:"extension,omitempty"`
	ValueCoding coding      `json:"valueCoding"`
}

type coding struct {
	System  string `json:"system"`
	Code    string `json:"code"`
	Display string `json:"display,omitempty"`
}

type extension struct {
	URL          string  `json:"url"`
	ValueBoolean bool    `json:"valueBoolean,omitempty"`
	ValueCoding  *coding `json:"valueCoding,omitempty"`
}

// enableWhen has exactly one answer.
type enableWhen struct {
	Question       string  `json:"question"`
	Operator       string  `json:"operator"`
	AnswerBoolean  *bool   `json:"answerBoolean,omitempty"`
	AnswerCoding   *coding `json:"answerCoding,omitempty"`
	AnswerQuantity *amount `json:"answerQuantity,omitempty"`
}

type amount struct {
	Value  number `json:"value"`
	Unit   string `json:"unit,omitempty"`
	System string `json:"system"`
	Code   string `json:"code"`
}

// number is a decimal as it is written, so that no binary digits get into it.
type number string

func (n number) MarshalJSON() ([]byte, error) { return []byte(n), nil }

const ucum = "http://unitsofmeasure.org"

// Extensions of the standard: the one unit of a quantity, and an answer that
// cannot be chosen together with others.
const (
	unitOption      = "http://hl7.org/fhir/StructureDefinition/questionnaire-unitOption"
	optionExclusive = "http://hl7.org/fhir/StructureDefinition/questionnaire-optionExclusive"
)
