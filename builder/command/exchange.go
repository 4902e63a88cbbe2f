package command

import (
	"context"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"keelpath/builder/exchange"
	"keelpath/builder/folder"
)

func exchangeCommand(s Streams) *cobra.Command {
	var in input
	var out string
	c := &cobra.Command{
		Use:   "exchange",
		Short: "Write every tree as an HL7 FHIR R4 Questionnaire",
		Long: `Writes each tree as a Questionnaire of HL7 FHIR R4, one JSON file a tree. A form
program that follows the standard then asks the same questions in the same order
and comes to the same endings, with their prompts. A form orders nothing, scores
nothing and sets no level, and names no person.

Amounts are asked in one unit. A tree whose logic the standard's conditions
cannot say is a finding, and then nothing is written.

The folder is replaced whole. A folder that Keelpath did not make is never touched.`,
		Example: "  keelpath exchange\n  keelpath exchange --layer our-clinic --out forms",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			if out == "" {
				return wrongCall{fmt.Errorf("--out needs the name of a folder")}
			}
			l, list, err := in.load(c.Context())
			if err != nil {
				return asItWas(err, out)
			}
			var forms []exchange.Written
			if list.Errors() == 0 {
				forms = exchange.Write(l, l.Trees, list)
				list.Harden(exchange.NotAForm)
			}
			if err := tell(s.Err, l, list); err != nil {
				return err
			}
			if list.Errors() > 0 {
				fmt.Fprintf(s.Err, "nothing was written; %s is as it was\n", out)
				return errFindings
			}
			if err := writeForms(c.Context(), s, forms, out); err != nil {
				return err
			}
			_, err = fmt.Fprintf(s.Out, "wrote %s to %s\n", count(len(forms), "form"), out)
			return err
		},
	}
	in.flags(c)
	c.Flags().StringVar(&out, "out", "exchange", "the `folder` to write into")
	return c
}

func writeForms(ctx context.Context, s Streams, forms []exchange.Written, out string) error {
	return replace(ctx, s, out, func(root *os.Root) error {
		for _, f := range forms {
			if err := folder.WriteFile(root, exchange.FileName(f.Tree), f.JSON); err != nil {
				return err
			}
		}
		return nil
	})
}
