import { helpOption, type OptionHelp, type Values } from './options.ts';

/** One verb of the command line. */
export interface Verb {
  readonly name: string;
  /** The arguments after the name, as `--help` prints them. */
  readonly usage: string;
  readonly does: string;
  readonly options: readonly OptionHelp[];
  run(positionals: readonly string[], values: Values): Promise<void>;
}

/** The text of `ectype VERB --help`. */
export function helpOf(verb: Verb): string {
  const rows = [...verb.options, helpOption].map((option) => {
    const left = `--${option.name}${option.value ? ` ${option.value}` : ''}`;
    return `  ${left.padEnd(44)} ${option.help}`;
  });
  return `ectype ${verb.name} ${verb.usage}\n\n${verb.does}\n\n${rows.join('\n')}\n`;
}
