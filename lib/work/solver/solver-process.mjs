// HiGHS in a process of its own: a solve blocks its thread, and a process can be ended whatever it is doing.
import loadHighs from 'highs';

const highs = await loadHighs();

process.on('message', ({ id, programme, options }) => {
  // Solvers are never shared between programmes: each gets a fresh one.
  const model = highs.createModel(programme.model);
  try {
    process.send({ id, solution: run(model, programme, options) });
  } catch (error) {
    process.send({ id, error: String(error?.message ?? error) });
  } finally {
    model.dispose();
  }
});
// Without its parent nobody waits for the answer.
process.on('disconnect', () => process.exit(0));

function run(model, { isInteger }, { timeLimit, gap, start }) {
  model.options.set({ output_flag: false, time_limit: timeLimit, mip_rel_gap: gap, mip_abs_gap: 0 });
  if (isInteger && start !== null) model.setSolution({ colValue: start });
  model.run();
  const hasValues = model.info.get('primal_solution_status') === FEASIBLE;
  const { colValue, rowDual } = model.getSolution();
  const cost = hasValues ? model.getObjectiveValue() : Number.POSITIVE_INFINITY;
  return {
    status: statusOf(model, hasValues),
    cost,
    bound: isInteger ? model.info.get('mip_dual_bound') : cost,
    values: hasValues ? colValue : null,
    duals: hasValues && !isInteger ? rowDual : null,
  };
}

/** Value of HiGHS's `primal_solution_status` for a feasible point. */
const FEASIBLE = 2;

function statusOf(model, hasValues) {
  const { modelStatus } = highs.constants;
  switch (model.getModelStatus()) {
    case modelStatus.optimal:
    case modelStatus.empty:
      return 'optimal';
    case modelStatus.infeasible:
    case modelStatus.unboundedOrInfeasible:
      return 'infeasible';
    case modelStatus.timeLimit:
    case modelStatus.solutionLimit:
    case modelStatus.iterationLimit:
    case modelStatus.interrupted:
      return hasValues ? 'within-gap' : 'time-limit';
    default:
      throw new Error(`the solver ended with status ${model.getModelStatus()}`);
  }
}
