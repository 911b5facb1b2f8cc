/** The view *Requirements*: a tree by document that follows the product at hand. */
import {
  commands,
  Disposable,
  EventEmitter,
  MarkdownString,
  ThemeColor,
  ThemeIcon,
  type TreeDataProvider,
  TreeItem,
  TreeItemCollapsibleState,
  type TreeView,
  Uri,
  window,
  workspace,
} from 'vscode';
import type { RequirementItem } from '../server/lsp/messages';
import { rangeOf } from './places';
import {
  type DocumentGroup,
  type Filter,
  filterLine,
  grouped,
  isFiltering,
  NO_FILTER,
  standing,
} from './requirements-tree';
import type { ServerLink } from './server-link';
import { signOf } from './verdict-words';

export type Node =
  | { readonly kind: 'document'; readonly group: DocumentGroup }
  | { readonly kind: 'requirement'; readonly item: RequirementItem };

export interface RequirementsView extends Disposable {
  readonly filter: Filter;
  setFilter(filter: Filter): void;
  /** Moves the keyboard there. */
  show(): Promise<void>;
}

export function createRequirementsView(link: ServerLink): RequirementsView {
  const tree = new RequirementsTree(link);
  const view = window.createTreeView<Node>('plimsoll.requirements', { treeDataProvider: tree, showCollapseAll: true });
  const parts = Disposable.from(
    view,
    link.onSummary(() => void tree.refresh(view)),
    whenEditorChanges(link, tree, view),
  );
  return {
    get filter() {
      return tree.filter;
    },
    setFilter(filter) {
      tree.filter = filter;
      void commands.executeCommand('setContext', 'plimsoll.isFiltered', isFiltering(filter));
      view.message = isFiltering(filter) ? `Only: ${filterLine(filter)}` : '';
      tree.changed.fire(undefined);
    },
    show: async () => void (await commands.executeCommand('plimsoll.requirements.focus')),
    dispose: () => void parts.dispose(),
  };
}

/** Another editor may be of another product. */
function whenEditorChanges(link: ServerLink, tree: RequirementsTree, view: TreeView<Node>): Disposable {
  return window.onDidChangeActiveTextEditor(() => {
    if (link.products.length > 1) void tree.refresh(view);
  });
}

class RequirementsTree implements TreeDataProvider<Node> {
  readonly changed = new EventEmitter<Node | undefined>();
  readonly onDidChangeTreeData = this.changed.event;
  filter: Filter = NO_FILTER;
  private requirements: readonly RequirementItem[] = [];
  private asked = 0;

  constructor(private readonly link: ServerLink) {}

  /** Asks the server; the answer to an older question never replaces that to a newer one. */
  async refresh(view: TreeView<Node>): Promise<void> {
    this.asked += 1;
    const { asked } = this;
    const product = this.link.productOf(window.activeTextEditor?.document.uri.toString() ?? null);
    const result = product === null ? null : await this.link.ask('plimsoll/requirements', { uri: product.uri });
    if (asked !== this.asked) return;
    this.requirements = result?.requirements ?? [];
    view.description = this.link.products.length > 1 ? (result?.product ?? '') : '';
    this.changed.fire(undefined);
  }

  getChildren(node?: Node): Node[] {
    if (node?.kind === 'requirement') return [];
    if (node !== undefined) return node.group.requirements.map((item) => ({ kind: 'requirement', item }));
    return grouped(this.requirements, this.filter).map((group) => ({ kind: 'document', group }));
  }

  getTreeItem(node: Node): TreeItem {
    return node.kind === 'document' ? documentItem(node.group) : requirementItem(node.item);
  }

  async resolveTreeItem(item: TreeItem, node: Node): Promise<TreeItem> {
    if (node.kind !== 'requirement') return item;
    const explained = await this.link.ask('plimsoll/explain', { uri: node.item.place.uri, name: node.item.id });
    item.tooltip = explained === null ? item.tooltip : new MarkdownString(explained.text);
    return item;
  }
}

function documentItem({ uri, requirements }: DocumentGroup): TreeItem {
  const place = Uri.parse(uri);
  const path = workspace.asRelativePath(place, false);
  const slash = path.lastIndexOf('/');
  const item = new TreeItem(path.slice(slash + 1), TreeItemCollapsibleState.Expanded);
  item.id = uri;
  item.resourceUri = place;
  item.iconPath = ThemeIcon.File;
  item.description = [path.slice(0, Math.max(slash, 0)), String(requirements.length)].filter(Boolean).join(' · ');
  item.contextValue = 'document';
  return item;
}

function requirementItem(requirement: RequirementItem): TreeItem {
  const { id, title, place, verdict } = requirement;
  const item = new TreeItem(title === '' ? id : `${id} ${title}`);
  const sign = signOf(verdict);
  item.id = `${place.uri} ${id} ${place.range.start.line}`;
  item.description = standing(requirement);
  item.iconPath = new ThemeIcon(sign.icon, sign.color === null ? undefined : new ThemeColor(sign.color));
  item.contextValue = 'requirement';
  item.accessibilityInformation = { label: `${id} ${title}: ${standing(requirement)}` };
  item.command = {
    title: 'Open',
    command: 'vscode.open',
    arguments: [Uri.parse(place.uri), { selection: rangeOf(place.range), preserveFocus: false }],
  };
  return item;
}
