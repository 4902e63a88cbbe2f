package command

import (
	"context"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"keelpath/builder/finding"
	"keelpath/builder/folder"
	"keelpath/builder/schema"
)

func schemaCommand(s Streams) *cobra.Command {
	var out string
	var kinds []string
	var about strings.Builder
	for _, k := range schema.Kinds() {
		kinds = append(kinds, k.ID)
		fmt.Fprintf(&about, "  %-11s %s\n", k.ID, k.File)
	}
	c := &cobra.Command{
		Use:   "schema [KIND]",
		Short: "Write JSON Schemas, so that an editor completes and checks while you type",
		Long: `Writes the JSON Schema (draft 2020-12) of one kind of file, or of all kinds into
a folder. Name it in your editor's settings, or in the first line of a file:

  # yaml-language-server: $schema=../schemas/tree.schema.json

A schema knows what a file may look like. Names in other files and where a tree
leads are known to "keelpath check" alone.

Kinds:
` + strings.TrimRight(about.String(), "\n"),
		Example:   "  keelpath schema tree\n  keelpath schema --out schemas",
		Args:      cobra.MaximumNArgs(1),
		ValidArgs: kinds,
		RunE: func(c *cobra.Command, args []string) error {
			switch all := c.Flags().Changed("out"); {
			case all && len(args) > 0:
				return wrongCall{fmt.Errorf("--out writes all kinds; leave %q out, or leave --out out; see %q", args[0], c.CommandPath()+" --help")}
			case all:
				return writeSchemas(c.Context(), s, out)
			case len(args) == 0:
				return wrongCall{fmt.Errorf("say which kind, or --out and a folder for all; kinds: %s", strings.Join(kinds, ", "))}
			}
			k, ok := schema.Find(args[0])
			if !ok {
				return wrongCall{fmt.Errorf("there is no kind %q; %s", args[0], strings.Join(append(finding.NearestHelp(args[0], kinds, nil), "kinds: "+strings.Join(kinds, ", ")), "; "))}
			}
			_, err := s.Out.Write(k.JSON())
			return err
		},
	}
	c.Flags().StringVar(&out, "out", "", "a `folder` for the schemas of all kinds; it is replaced whole")
	return c
}

func writeSchemas(ctx context.Context, s Streams, out string) error {
	if out == "" {
		return wrongCall{fmt.Errorf("--out needs the name of a folder")}
	}
	err := replace(ctx, s, out, func(root *os.Root) error {
		for _, k := range schema.Kinds() {
			if err := folder.WriteFile(root, k.FileName(), k.JSON()); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(s.Out, "wrote %s to %s\n", count(len(schema.Kinds()), "schema"), out)
	return err
}
