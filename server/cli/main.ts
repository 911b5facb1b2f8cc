/** The command line: reads arguments, runs one command, turns what happened into an exit status. */
import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { type Host, today } from '../host';
import { createNodeHost } from '../host-node';
import { RESULTS } from '../model/verification';
import type { NamedText } from '../model/written-value';
import { isDay } from '../quantity/calendar';
import { type BudgetOptions, runBudget } from './budget';
import { CHECK_FORMATS, type CheckOptions, runCheck } from './check';
import type { ExitStatus } from './exit-status';
import { type ExplainOptions, runExplain } from './explain';
import { runImport } from './import';
import { addLanguageServer } from './language-server';
import { MATRIX_FORMATS, type MatrixOptions, runMatrix } from './matrix';
import { runNew } from './new';
import { allowClosedPipe } from './output';
import { parsedAsWorker } from './parse-ahead';
import { type RecordOptions, runRecord } from './record';
import { runTrial, type TrialOptions } from './trial';
import { runWatch } from './watch';

async function main(): Promise<void> {
  allowClosedPipe(process.stdout);
  allowClosedPipe(process.stderr);
  let status: ExitStatus = 0;
  const program = createProgram((result) => {
    status = result;
  });
  try {
    await program.parseAsync(process.argv);
  } catch (error) {
    status = statusOf(error);
  }
  process.exitCode = status;
}

function createProgram(done: Done): Command {
  const host = createNodeHost({ git: true });
  const program = new Command('plimsoll')
    .description('Requirements as Markdown sentences, checked against the figures of the design.')
    .exitOverride()
    .showHelpAfterError('(plimsoll --help shows what there is)');
  addCheck(program, host, done);
  addQuestions(program, host, done);
  addMatrix(program, host, done);
  addWritingCommands(program, host, done);
  addLanguageServer(program);
  return program;
}

type Done = (status: ExitStatus) => void;

function addCheck(program: Command, host: Host, done: Done): void {
  program
    .command('check')
    .description('verdicts and findings of the product that holds a folder')
    .argument('[dir]', 'a folder of the product', '.')
    .addOption(new Option('--format <format>', 'what comes out').choices(CHECK_FORMATS).default('text'))
    .addOption(
      new Option('--fail-on <level>', 'the mildest finding that gives exit status 1')
        .choices(['error', 'warning', 'information'])
        .default('error'),
    )
    .option('-v, --all', 'every finding on a line of its own, hints among them')
    .option('--watch', 'check again after each change, until interrupted')
    .option('--date <date>', 'the day to take for today, as year-month-day', readDate)
    .option('-o, --output <file>', 'write to a file instead of standard output')
    .option('--force', 'overwrite a file that stands there already')
    .addHelpText(
      'after',
      '\nExample:\n  plimsoll check sample-workspace\n  plimsoll check --format json -o check.json\n  plimsoll check --format sarif --fail-on warning -o plimsoll.sarif\n  plimsoll check --watch\n\nExit status: 0 nothing at or above --fail-on, 1 findings, 2 usage or unreadable input.',
    )
    .action(async (dir: string, options: CheckOptions & { readonly watch?: boolean }) =>
      done(options.watch ? await runWatch(host, dir, options, interruption()) : await runCheck(host, dir, options)),
    );
}

/** Commands that answer a question about one name, or about a design that is not written. */
function addQuestions(program: Command, host: Host, done: Done): void {
  program
    .command('budget')
    .description('the contributors to a sum, biggest first, and what it may still take')
    .argument('<name>', 'a fact, such as supply.draw')
    .option('--dir <dir>', 'a folder of the product', '.')
    .addOption(new Option('--format <format>', 'what comes out').choices(['text', 'json']).default('text'))
    .option('-o, --output <file>', 'write to a file instead of standard output')
    .option('--force', 'overwrite a file that stands there already')
    .addHelpText('after', '\nExample:\n  plimsoll budget supply.draw --dir sample-workspace')
    .action(async (name: string, options: BudgetOptions) => done(await runBudget(host, name, options, today(host))));
  program
    .command('explain')
    .description('all that is known of a requirement, a fact or a part')
    .argument('<name>', 'an id, a fact or a part: TRN-031, supply.draw, parts.soc')
    .option('--dir <dir>', 'a folder of the product', '.')
    .addOption(new Option('--format <format>', 'what comes out').choices(['text', 'json']).default('text'))
    .option('-o, --output <file>', 'write to a file instead of standard output')
    .option('--force', 'overwrite a file that stands there already')
    .addHelpText('after', '\nExample:\n  plimsoll explain TRN-031 --dir sample-workspace')
    .action(async (name: string, options: ExplainOptions) => done(await runExplain(host, name, options, today(host))));
  program
    .command('trial')
    .description('verdicts as if some figures were otherwise, beside those of today; writes nothing')
    .argument('[name=value...]', 'a figure and what to try for it', collectPair, [])
    .option('--without <part>', 'a part to leave out; may be given again', collect, [])
    .option('--dir <dir>', 'a folder of the product', '.')
    .addOption(new Option('--format <format>', 'what comes out').choices(['text', 'json']).default('text'))
    .option('-o, --output <file>', 'write to a file instead of standard output')
    .option('--force', 'overwrite a file that stands there already')
    .addHelpText(
      'after',
      '\nExample:\n  plimsoll trial supply.efficiency=95% --without console-bridge --dir sample-workspace',
    )
    .action(async (values: readonly NamedText[], options: TrialOptions) =>
      done(await runTrial(host, values, options, today(host))),
    );
}

function addMatrix(program: Command, host: Host, done: Done): void {
  program
    .command('matrix')
    .description('the matrix for a review: every requirement with its verdict, what it rests on and its evidence')
    .argument('[dir]', 'a folder of the product', '.')
    .addOption(new Option('--format <format>', 'what comes out').choices(MATRIX_FORMATS).default('html'))
    .option('--date <date>', 'the day to take for today, as year-month-day', readDate)
    .option('-o, --output <file>', 'write to a file instead of standard output')
    .option('--force', 'overwrite a file that stands there already')
    .addHelpText(
      'after',
      '\nExample:\n  plimsoll matrix sample-workspace -o matrix.html\n  plimsoll matrix --format xlsx -o matrix.xlsx\n\nThe page is one file that needs no network; it opens in any browser and prints.',
    )
    .action(async (dir: string, options: MatrixOptions) => done(await runMatrix(host, dir, options)));
}

/** Commands that write documents. */
function addWritingCommands(program: Command, host: Host, done: Done): void {
  program
    .command('record')
    .description('appends a run to a record of verification, with what it proved')
    .argument('<record>', 'a record, such as TP-03')
    .addOption(new Option('--result <result>', 'how it went').choices(RESULTS).makeOptionMandatory())
    .option('--measured <name=value>', 'a measured figure; may be given again', collectPair, [])
    .option('--at <name=value>', 'a condition it was run in; may be given again', collectPair, [])
    .option('--article <article>', 'which one was tested')
    .option('--date <date>', 'the day of the run, as year-month-day; today unless given', readDate)
    .option('--dir <dir>', 'a folder of the product', '.')
    .addHelpText(
      'after',
      '\nExample:\n  plimsoll record TP-03 --result pass --measured "storage.retention=9.6 d ± 0.1 d" --at "environment.ambient=23 °C" --article "EVT 3"',
    )
    .action(async (id: string, options: RecordOptions) => done(await runRecord(host, id, options, today(host))));
  program
    .command('import')
    .description('requirements from the CSV of a spreadsheet, as a document')
    .argument('<file>', 'CSV in UTF-8; columns are known by their names')
    .option('-o, --output <file>', 'write to a file that is not there yet instead of standard output')
    .addHelpText('after', '\nExample:\n  plimsoll import requirements.csv -o requirements.md')
    .action(async (file: string, options: { readonly output?: string }) => done(await runImport(host, file, options)));
  program
    .command('new')
    .description('a starter file: one requirement beside the figure it depends on')
    .argument('[dir]', 'where to put it', '.')
    .addHelpText('after', '\nExample:\n  plimsoll new my-product\n  plimsoll check my-product')
    .action(async (dir: string) => done(await runNew(host, dir)));
}

function collect(text: string, before: readonly string[]): readonly string[] {
  return [...before, text];
}

function collectPair(text: string, before: readonly NamedText[]): readonly NamedText[] {
  const [, name, value] = /^([^=]+)=(.+)$/s.exec(text) ?? [];
  if (name === undefined || value === undefined)
    throw new InvalidArgumentError('Write a name and its value: supply.draw=45 W.');
  return [...before, { name: name.trim(), value: value.trim() }];
}

function readDate(text: string): string {
  if (!isDay(text)) throw new InvalidArgumentError('It is no day of the calendar: write year-month-day (2026-10-02).');
  return text;
}

/** Signalled by the first interrupt, and when nobody reads the output any more; a second interrupt ends the process. */
function interruption(): AbortSignal {
  const controller = new AbortController();
  process.once('SIGINT', () => controller.abort());
  process.stdout.once('close', () => controller.abort());
  return controller.signal;
}

/** Help and version are no mistakes; everything else that stops the reading of arguments is. */
function statusOf(error: unknown): ExitStatus {
  if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
  process.stderr.write(
    `plimsoll: a mistake in the program: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
  );
  return 2;
}

if (!parsedAsWorker()) void main();
