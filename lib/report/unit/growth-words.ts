import type { FittedModel } from '@/lib/core/growth/growth';
import { MODEL_WORDS } from '@/lib/report/format/words';

/** A model that carries at least this share of the weight is named in a sentence [-] (own choice). */
export const NAMED_MODEL_WEIGHT = 0.15;

/** "A linear and a falling-rate model carry the weight"; null without models. */
export function modelsInWords(models: readonly Pick<FittedModel, 'name' | 'weight'>[]): string | null {
  const ranked = [...models].sort((a, b) => b.weight - a.weight);
  const heavy = ranked.filter((model) => model.weight >= NAMED_MODEL_WEIGHT);
  const named = heavy.length > 0 ? heavy : ranked.slice(0, 1);
  if (named.length === 0) return null;
  const words = named.map((model) => `${article(adjective(model.name))}${adjective(model.name)}`);
  return `${listInWords(words)} model ${named.length === 1 ? 'carries' : 'carry'} the weight`;
}

function adjective(name: FittedModel['name']): string {
  return MODEL_WORDS[name].replace(' ', '-');
}

function article(word: string): string {
  return /^[aeiou]/.test(word) ? 'an ' : 'a ';
}

/** "hot flow", "hot flow and cold flow", "hot flow, cold flow and hot inlet temperature". */
export function listInWords(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** "Growth models of the running cycle by weight: linear 62 %, falling rate 38 %."; null without models. */
export function weightsInWords(models: readonly Pick<FittedModel, 'name' | 'weight'>[]): string | null {
  if (models.length === 0) return null;
  const weights = new Map<FittedModel['name'], number>();
  for (const { name, weight } of models) weights.set(name, (weights.get(name) ?? 0) + weight);
  const ranked = [...weights].sort(([, a], [, b]) => b - a);
  const words = ranked.map(([name, weight]) => `${MODEL_WORDS[name]} ${weightText(weight)}`);
  return `Growth models of the running cycle by weight: ${words.join(', ')}.`;
}

/** A weight that rounds to nothing still is some. */
function weightText(weight: number): string {
  const percent = Math.round(weight * 100);
  return percent === 0 ? 'less than 1 %' : `${percent} %`;
}
