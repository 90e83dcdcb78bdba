/**
 * The messages that written instructions are said with: each key of `rows.json` once, with the slots the
 * code fills. A slot holds a number, a name or a whole constituent (a goal, a rate, a list of actions),
 * never a piece of a word; order and inflection are the language's own. Completeness is checked against
 * this list. Contexts in brackets may split a key further: `goal.end_row`, `goal.end_round`.
 */
export const FORMS = {
  // labels [row, round]
  'range.one': ['n'],
  'range.span': ['from', 'to'],
  'range.and': ['list', 'last'],
  'list.and': ['list', 'last'], // of names
  'label.numbered': ['rows'],
  'label.next': ['n'],
  'label.numberedRole': ['role', 'n'],
  'label.andAll': ['label'], // [rowWS, rowRS, rowEven, rowOdd, rowFollowing, round…]
  'label.side': ['label'], // [RS, WS]
  'label.withRole': ['label', 'role'], // Row 10 (dec)
  'label.close': ['label'],
  'role.set-up': [],
  'role.increase': [],
  'role.decrease': [],
  'role.short': [],
  'role.joining': [],
  'role.eyelet': [],
  'role.dividing': [],
  'role.buttonhole': [],
  'role.ridge': [],
  onlySizes: ['sizes'],
  // where "to …" stops [row, round]
  'goal.end': [],
  'goal.last': ['n'],
  'goal.marker': [],
  'goal.beforeMarker': ['n'],
  'goal.namedMarker': ['marker'],
  'goal.beforeNamedMarker': ['n', 'marker'],
  'goal.gap': [],
  'goal.beforeGap': ['n'],
  'goal.pastGap': ['n'],
  'goal.pastMarker': ['n'],
  'goal.pastNamedMarker': ['n', 'marker'],
  'goal.remaining': ['n'],
  // actions
  workTo: ['run', 'goal'],
  workAll: ['verb'],
  workIn: ['n', 'fabric'], // work 10 sts in rib
  workInTo: ['fabric', 'goal'],
  'workedIn.fabric': ['fabric', 'action'], // work in rib, dec 1 st each end
  'workedIn.stitch': ['verb', 'action'], // knit, dec 12 sts evenly
  times: ['action', 'n'], // [2]
  group: ['actions', 'n'], // [2]
  'repeat.goal': ['actions', 'goal'],
  'repeat.more': ['actions', 'n'],
  'repeat.total': ['actions', 'n'],
  'repeat.ending': ['repeat', 'ending'],
  into: ['actions', 'n'],
  'into.together': ['actions', 'n', 'together'],
  nothing: [], // what a size does that skips an action
  'marker.place': [],
  'marker.slip': [],
  'marker.remove': [],
  'marker.placeNamed': ['marker'],
  'marker.slipNamed': ['marker'],
  'marker.removeNamed': ['marker'],
  'bindOff.count': ['n'], // [plain, inPattern, knitwise, purlwise]
  'bindOff.all': [],
  'bindOff.apart': ['bindOff'],
  'bindOff.how': ['bindOff', 'how'],
  castOn: ['n'],
  'castOn.how': ['n', 'how'],
  pickUp: ['n'], // [p]
  'pickUp.from': ['n', 'along'],
  along: ['edge'],
  'pickUp.rate': ['pickUp', 'stitches', 'rows'],
  'hold.count': ['n', 'holder'],
  'hold.all': ['holder'],
  'hold.for': ['name'], // a holder named after what waits on it
  'resume.held': [],
  'resume.count': ['n'],
  'resume.heldOf': ['holder'],
  'resume.countOf': ['n', 'holder'],
  'turn.none': [],
  'turn.wrap': [],
  'turn.german': [],
  'turn.leaving': ['turn', 'n'],
  slide: [],
  'chart.whole': ['chart'],
  'chart.times': ['chart', 'n'],
  'chart.goal': ['chart', 'goal'],
  'chart.over': ['chart', 'n'],
  'chart.row': ['chart', 'row'],
  'chart.rowOver': ['chart', 'row', 'n'],
  'evenly.increase': ['n'],
  'evenly.decrease': ['n'],
  'evenly.increaseOver': ['n', 'over'],
  'evenly.decreaseOver': ['n', 'over'],
  'change.increase': ['n', 'place'],
  'change.decrease': ['n', 'place'],
  'change.bindOff': ['n', 'place'],
  'place.eachEnd': [],
  'place.beginning': [],
  'place.end': [],
  'place.neckEdge': [],
  'place.armholeEdge': [],
  'place.eachMarker': [],
  'place.frontEdge': [],
  'place.sideEdge': [],
  'place.eachSideOfMarker': [],
  'place.eachNamedMarker': ['marker'],
  'place.eachSideOfNamedMarker': ['marker'],
  'yarn.with': ['yarn'],
  // sentences
  facing: ['sentence'], // [RS, WS]
  'beginning.stitch': ['sentence', 'verb'],
  'beginning.side': ['sentence'], // [RS, WS]
  'beginning.row': ['sentence', 'n'], // [row, round]
  'how.and': ['first', 'next'],
  'how.method': ['method'],
  'how.yarn': ['yarn'],
  'how.needle': ['needle'], // a needle the language does not know
  'join.round': [],
  'join.roundMarker': [],
  'join.flat': [],
  'rows.named': ['rows'], // [row, round]
  'rows.last': ['n'],
  'rows.role': ['role'],
  'rows.of': ['rows', 'of'],
  'repeatRows.more': ['rows', 'n'],
  'repeatRows.total': ['rows', 'n'],
  'repeatRows.once': ['rows'],
  'repeatRows.onceOf': ['rows'],
  'repeatRows.until': ['rows', 'extent'], // [length, rows, count]
  'repeatRows.untilOf': ['rows', 'extent'],
  'repeatRows.instead': ['sentence', 'pairs'],
  'repeatRows.pair': ['old', 'now'],
  'repeatRows.narrower': ['sentence', 'n'],
  'repeatRows.wider': ['sentence', 'n'],
  'extent.length': ['length'], // [cast-on, here, underarm, divide, marker, pick-up]
  'extent.rows': ['n'], // [row, round]
  'extent.count': ['n'],
  'extent.more': ['n'],
  'extent.total': ['n'],
  'extent.once': [],
  'extent.endingSide': ['extent'], // [RS, WS]
  'extent.endingRow': ['extent', 'n'],
  'workEven.stitchRows': ['verb', 'n'], // [row, round]
  'workEven.stitch': ['verb', 'extent'], // [length, rows, count, more, total]
  'workEven.fabric': ['fabric', 'extent'],
  'workEven.chart': ['chart', 'extent'],
  'workEven.established': ['extent'],
  'workEven.fabricOnce': ['fabric'],
  'workEven.establishedOnce': [],
  'fabric.named': ['name'],
  'fabric.chart': ['chart'],
  'fabric.asTheyFace': [],
  'shape.change': ['change', 'rates'],
  'shape.changeNow': ['change', 'rates'], // [row, round]: the first on the next row
  'shape.repeat': ['rates'],
  'shape.repeatNow': ['rates'],
  'shape.repeatRole': ['role', 'rates'],
  'shape.repeatRoleNow': ['role', 'rates'],
  'rate.rows': ['every', 'ordinal'], // [row, round, row1, row2; row0: differs by size]
  'rate.side': [], // [RS, WS]
  'rate.length': ['length'],
  'rate.times': ['interval', 'n'],
  'rate.until': ['rates', 'extent'],
  'rate.then': ['first', 'next'],
  ordinal: ['n'],
  atTheSameTime: ['sentence'],
  'atTheSameTime.when': ['start', 'sentence'],
  'start.length': ['length'], // [cast-on, here, underarm, divide, marker, pick-up]
  'start.rows': ['n'], // [row, round]
  'start.count': ['n'],
  'sentence.then': ['first', 'next'],
  steps: ['sentences', 'extent'],
  'edgeRows.bindOff': ['n', 'rows'], // [beginning, end]
  'edgeRows.castOn': ['n', 'rows'],
  nextRows: ['n'],
  'needle.change': ['needle'],
  'yarn.join': [],
  'yarn.break': [],
  'yarn.change': ['yarn'],
  'yarn.joinNamed': ['yarn'],
  'yarn.breakNamed': ['yarn'],
  drawThrough: [],
  'drawThrough.count': ['n'],
  'joinStitches.graft': ['parts'],
  'joinStitches.bindOff': ['parts'],
  'mark.row': [],
  'mark.here': [],
  'mark.named': ['marker'],
  // counts
  stitches: ['n'],
  'stitches.increased': ['n'],
  'stitches.decreased': ['n'],
  'stitches.changeAndTotal': ['change', 'total'],
  'stitches.part': ['count', 'part'],
} as const satisfies Readonly<Record<string, readonly string[]>>;

export type FormKey = keyof typeof FORMS;
export type FormSlot<Key extends FormKey> = (typeof FORMS)[Key][number];

/** Forms that are asked for with the unit of the line, `row` or `round`, as their context. */
export const SAID_BY_UNIT: ReadonlySet<FormKey> = new Set<FormKey>([
  'label.numbered', 'label.next', 'role.set-up', 'role.increase', 'role.decrease', 'role.short',
  'role.joining', 'role.eyelet', 'role.dividing', 'role.buttonhole', 'role.ridge', 'goal.end',
  'chart.row', 'chart.rowOver', 'evenly.increase', 'evenly.decrease', 'place.beginning', 'place.end',
  'rows.named', 'rows.last', 'extent.rows', 'extent.endingRow', 'workEven.stitchRows',
  'shape.changeNow', 'shape.repeat', 'shape.repeatNow', 'shape.repeatRoleNow', 'rate.rows',
  'start.rows', 'nextRows', 'beginning.row',
]); // prettier-ignore
