/** What other rooms call to have charts, keys and schematics drawn, and drawings turned into SVG. */
export { drawPlot, plotScale, type PlotInput, type PlotSeries } from './plot.ts';
export { drawChart } from './chart/chart.ts';
export { chartKey, drawCell, type KeyEntry } from './chart/key.ts';
export type { ChartColour, ChartOptions, ChartStyle } from './chart/options.ts';
export { toOneWidth } from './frame.ts';
export { drawnOutline } from './schematic/from-rows.ts';
export { drawNested, type NestedSize } from './schematic/nested.ts';
export {
  commonScale,
  drawSchematic,
  type SchematicInput,
  type SchematicOptions,
} from './schematic/schematic.ts';
export { OUTLINE_ROLES, roleProblems, type OutlineKind } from './schematic/roles.ts';
export { symbolOf } from './symbols/index.ts';
export { toSvg, type SvgText } from './svg.ts';
