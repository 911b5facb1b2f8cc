/** The requests and notifications of our own, by name: all that an editor's extension has to know of the server. */

/** Names a product by any document or folder of it. */
export interface ProductParams {
  readonly uri: string;
}

/** Lines and characters from 0, in the encoding that was negotiated. */
export interface MessageRange {
  readonly start: { readonly line: number; readonly character: number };
  readonly end: { readonly line: number; readonly character: number };
}

export interface MessagePlace {
  readonly uri: string;
  readonly range: MessageRange;
}

/** One product in figures. Verdicts and evidence that no requirement has are left out of the counts. */
export interface ProductSummary {
  /** The product's folder. */
  readonly uri: string;
  readonly name: string;
  readonly phase: 'design' | 'release';
  /** Another number after every change that may have altered a verdict or a margin. */
  readonly judged: number;
  readonly requirements: number;
  readonly verdicts: Readonly<Record<string, number>>;
  readonly overSpecified: number;
  readonly findings: Readonly<Record<'error' | 'warning' | 'information' | 'hint', number>>;
}

/** Sent once the first scan is complete and whenever a product was judged anew: what shows verdicts asks again. */
export interface SummaryParams {
  readonly products: readonly ProductSummary[];
}

export interface RequirementItem {
  readonly id: string;
  readonly title: string;
  readonly place: MessagePlace;
  readonly obligation: string;
  /** As diagnostics, lenses and the summary show it: while a figure is being typed, for a moment that of before. */
  readonly verdict: string;
  /** `15 W`, `…` while a verdict of before stands for a moment longer, or empty where there is none. */
  readonly margin: string;
  /** Null where evidence is not computed or not applicable. */
  readonly evidence: string | null;
  readonly overSpecified: boolean;
  readonly derivesFrom: readonly string[];
}

export interface RequirementsResult {
  readonly product: string;
  /** In file and text order. */
  readonly requirements: readonly RequirementItem[];
}

/** A whole page of HTML without script of the workspace's. */
export interface PageResult {
  readonly title: string;
  readonly html: string;
  /** What the files are below that its links lead to. */
  readonly folder: string;
}

/** Facts laid over the design; nothing is written. Values as in front matter: `65 W ± 5 %`. */
export interface TrialParams extends ProductParams {
  readonly values: readonly { readonly name: string; readonly value: string }[];
}

export interface TrialResult {
  /** One for each requirement whose verdict or margin is another than today's. */
  readonly changes: readonly {
    readonly id: string;
    readonly today: { readonly verdict: string; readonly margin: string };
    readonly trial: { readonly verdict: string; readonly margin: string };
    readonly place: MessagePlace;
  }[];
  /** Values that could not be laid over the design, and why. */
  readonly problems: readonly { readonly name: string; readonly message: string }[];
}

export interface FiguresParams extends ProductParams {
  /** Its id. */
  readonly requirement: string;
}

/** What a requirement rests on, for a trial. */
export interface FiguresResult {
  readonly id: string;
  readonly title: string;
  readonly verdict: string;
  readonly margin: string;
  /** Given figures, each as it is written, under the name that a trial takes. */
  readonly figures: readonly { readonly name: string; readonly written: string; readonly place: MessagePlace }[];
}

export interface ExplainParams extends ProductParams {
  /** A requirement's id or a fact's full name. */
  readonly name: string;
}

export interface ExplainResult {
  /** Markdown. */
  readonly text: string;
  readonly place: MessagePlace;
}

export interface StarterResult {
  /** Its usual name. */
  readonly file: string;
  readonly text: string;
  /** The figure in it that is there to be changed. */
  readonly select: string;
}

export type { FromPage, ToPage } from '../reports/scripts/panel-messages';

/** Requests that are answered with a page. */
export type PageRequest =
  | 'plimsoll/matrix'
  | 'plimsoll/diagram'
  | 'plimsoll/brief'
  | 'plimsoll/options'
  | 'plimsoll/impact';

/** Sent by the client, answered by the server. A result of null: there is no such product, page or name. */
export interface Requests {
  'plimsoll/requirements': { readonly params: ProductParams; readonly result: RequirementsResult | null };
  'plimsoll/matrix': { readonly params: ProductParams; readonly result: PageResult | null };
  'plimsoll/diagram': { readonly params: ProductParams; readonly result: PageResult | null };
  'plimsoll/brief': { readonly params: ProductParams; readonly result: PageResult | null };
  'plimsoll/options': { readonly params: ProductParams; readonly result: PageResult | null };
  'plimsoll/impact': {
    readonly params: ProductParams & { readonly base?: string };
    readonly result: PageResult | null;
  };
  'plimsoll/trial': { readonly params: TrialParams; readonly result: TrialResult | null };
  /** The given figures that a requirement rests on, for a trial. */
  'plimsoll/figures': { readonly params: FiguresParams; readonly result: FiguresResult | null };
  'plimsoll/explain': { readonly params: ExplainParams; readonly result: ExplainResult | null };
  /** Reads every file again, for file systems that tell of no changes. */
  'plimsoll/rescan': { readonly params: null; readonly result: null };
  /** The five-minute file, for whoever starts a product. */
  'plimsoll/starter': { readonly params: null; readonly result: StarterResult };
}

/** Sent by the server, answered by a client that hands over files, where the server has no file system of its own. */
export interface HostRequests {
  'plimsoll/host/read': {
    readonly params: { readonly uri: string; readonly most: number };
    readonly result: HostFile | null;
  };
  'plimsoll/host/list': {
    readonly params: { readonly uri: string };
    readonly result: { readonly entries: readonly HostEntry[] } | { readonly reason: string };
  };
  'plimsoll/host/stat': { readonly params: { readonly uri: string }; readonly result: 'file' | 'folder' | null };
}

/** A file with more than `most` bytes is refused with its size; `reason` in words why it cannot be read. Null: missing. */
export type HostFile = { readonly base64: string } | { readonly size: number } | { readonly reason: string };

export interface HostEntry {
  readonly name: string;
  readonly kind: 'file' | 'folder' | 'link' | 'other';
}

/** Sent by the server; nothing is answered. */
export interface Notifications {
  'plimsoll/summary': SummaryParams;
}

/** Commands of an editor, by name, with what they are given. */
export interface CommandArguments {
  /** A document, a place in it, and the places to be shown from there. */
  'plimsoll.showPlaces': readonly [uri: string, at: MessageRange['start'], places: readonly MessagePlace[]];
  /** Opens a trial of a requirement. */
  'plimsoll.trial': readonly [trial: TrialStart];
}

/** A requirement to try other figures for, some of them given already. */
export interface TrialStart extends ProductParams {
  /** Its id. */
  readonly requirement: string;
  readonly values: TrialParams['values'];
}

/** Sent by the client with *initialize*. */
export interface InitializationOptions {
  /** Commands of the editor that lenses and code actions may name: {@link CommandArguments}. */
  readonly commands?: readonly string[];
  /** Whether git may be asked; false in a workspace that is not trusted. */
  readonly git?: boolean;
  /** The client answers the requests of {@link HostRequests}, and files are read by them alone. */
  readonly host?: boolean;
}
