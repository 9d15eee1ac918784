package main

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/question"
	"loamcast/scenarios/render"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// newQuestion is the command of a question: a flag for each of its options.
func newQuestion(q *question.Question) *cobra.Command {
	flags := simulationFlags{}
	trace := ""
	cmd := &cobra.Command{
		Use:     q.Name + " [FILE]",
		Short:   q.Short,
		Long:    q.Long + "\n" + exampleHelp() + exitHelp,
		Example: examplesOf(q),
		Args:    usage(cobra.MaximumNArgs(1)),
		RunE: func(cmd *cobra.Command, args []string) error {
			return flags.answered(ask(cmd, args, q, &flags, trace))
		},
	}
	addOptions(cmd, q.Options)
	if q.Trace != nil {
		cmd.Flags().StringVar(&trace, "trace", "", "file for every movement of mass in the first replication (CSV)")
	}
	if q.Simulates {
		flags.register(cmd)
	} else {
		flags.showFlags.register(cmd)
		flags.registerCache(cmd)
	}
	return cmd
}

// addOptions gives a command a flag for each of some options.
func addOptions(cmd *cobra.Command, options []question.Option) {
	for _, o := range options {
		if o.Kind == question.Switch {
			cmd.Flags().Bool(o.Name, false, o.Words)
			continue
		}
		cmd.Flags().Var(&written{kind: kindNames[o.Kind], text: o.Default}, o.Name, o.Words)
	}
}

// readOptions reads what was written of them.
func readOptions(cmd *cobra.Command, options []question.Option) (question.Values, error) {
	texts := map[string]string{}
	cmd.Flags().Visit(func(f *pflag.Flag) { texts[f.Name] = f.Value.String() })
	values, err := question.Read(options, texts)
	return values, wrongOption(err)
}

// examplesOf writes the examples of a question as commands.
func examplesOf(q *question.Question) string {
	lines := make([]string, len(q.Examples))
	for i, arguments := range q.Examples {
		lines[i] = strings.TrimRight("  loamcast "+q.Name+" "+arguments, " ")
	}
	return strings.Join(lines, "\n")
}

// written is the value of a flag as it was written; the question reads it.
type written struct{ kind, text string }

func (w *written) String() string        { return w.text }
func (w *written) Set(text string) error { w.text = text; return nil }
func (w *written) Type() string          { return w.kind }

var _ pflag.Value = (*written)(nil)

// kindNames are what help calls the values of options.
var kindNames = [...]string{question.Words: "name", question.Integer: "int", question.Quantity: "quantity", question.Month: "month", question.Months: "month"}

// ask asks a question of the facility named, and shows its answer. A trace, if a
// file for it is named, is written first.
func ask(cmd *cobra.Command, args []string, q *question.Question, flags *simulationFlags, trace string) error {
	values, err := readOptions(cmd, q.Options)
	if err != nil {
		return err
	}
	bars := parts{}
	f, err := flags.subject(cmd, args, &bars)
	if err != nil {
		return err
	}
	a, err := q.Ask(cmd.Context(), f.study, f.setup, values)
	bars.done()
	if err != nil {
		return wrongOption(err)
	}
	if trace != "" {
		if err := writeTrace(cmd, q, f.study, f.system, trace); err != nil {
			return err
		}
	}
	return showOf(cmd, f.File, a.Document(), f.system, &flags.showFlags)
}

// writeTrace writes what moves in the first replication of a question, whole or
// not at all.
func writeTrace(cmd *cobra.Command, q *question.Question, s *study.Study, system units.System, path string) error {
	var rows bytes.Buffer
	t := render.NewTrace(&rows, system)
	if err := q.Trace(cmd.Context(), s, t.Add); err != nil {
		return err
	}
	if err := t.Close(); err != nil {
		return err
	}
	return replacing(cmd).WriteFile(cmd.Context(), path, rows.Bytes(), render.TraceBegins)
}

// wrongOption marks what is wrong with an option as a mistake on the command
// line; other errors stay as they are.
func wrongOption(err error) error {
	if wrong := (*answer.OptionError)(nil); errors.As(err, &wrong) {
		return usageError{fmt.Errorf("--%w", err)}
	}
	return err
}
