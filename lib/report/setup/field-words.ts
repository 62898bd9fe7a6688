import { SENSOR_WORDS } from '@/lib/report/format/words';
import { CHECK_FIELDS } from './check-fields';

const WORDS: Record<string, string> = {
  'site.name': 'Site',
  'site.timeZone': 'Time zone',
  'site.currency': 'Currency',
  'unit.tag': 'Tag',
  'unit.service': 'Service',
  'unit.construction': 'Construction',
  'unit.arrangement': 'Arrangement',
  'unit.arrangement.shellPasses': 'Shell passes',
  'unit.arrangement.tubePasses': 'Tube passes',
  'unit.arrangement.hotPasses': 'Hot passes',
  'unit.arrangement.coldPasses': 'Cold passes',
  'unit.nozzles.hotIn': 'Hot inlet nozzle',
  'unit.nozzles.coldIn': 'Cold inlet nozzle',
  'unit.area': 'Area',
  'unit.plates.count': 'Number of plates',
  'unit.plates.areaEach': 'Area of one plate',
  'unit.plates.channelGap': 'Gap between plates',
  'unit.plates.channelWidth': 'Width of a channel',
  'unit.hot': 'Hot stream',
  'unit.cold': 'Cold stream',
  'unit.design': 'Design point',
  'unit.design.cleanU': 'Clean U',
  'unit.films': 'Films',
  'unit.films.hotShare': 'Share of the hot film',
  'unit.films.wallShare': 'Share of the wall',
  'unit.films.hotExponent': 'Exponent of the hot film',
  'unit.films.coldExponent': 'Exponent of the cold film',
  'unit.pressureDrop': 'Exponents of pressure drop',
  'unit.pressureDrop.hotExponent': 'Exponent of the hot pressure drop',
  'unit.pressureDrop.coldExponent': 'Exponent of the cold pressure drop',
  'unit.clean': 'Clean reference',
  'unit.cleanTest': 'Clean test',
  'unit.validFrom': 'Changed on',
  'unit.limits': 'Limits',
  'unit.sensors': 'Sensors',
  'unit.energy': 'Energy',
  'unit.energy.effect': 'What the unit does',
  'unit.energy.price.amount': 'Price of energy',
  'unit.energy.efficiency': 'Efficiency or COP',
  'unit.energy.carbon.kg': 'Carbon dioxide of energy',
  'unit.energy.supply': 'Supply that makes up for lost heat',
  'unit.energy.heldOutlet': 'Outlet held by a valve',
  'unit.pumping': 'Pumping',
  'unit.pumping.supply': 'Supply of the pumps',
  'unit.pumping.price.amount': 'Price of pumping energy',
  'unit.pumping.efficiency': 'Efficiency of the pumps',
  'unit.pumping.carbon.kg': 'Carbon dioxide of pumping energy',
  'unit.pumping.hotClean': 'Clean pressure drop, hot side',
  'unit.pumping.coldClean': 'Clean pressure drop, cold side',
  'unit.pumping.hotHead': 'Pressure of the hot pump',
  'unit.pumping.coldHead': 'Pressure of the cold pump',
  'unit.pumping.hotMaximumFlow': 'Largest hot flow',
  'unit.pumping.coldMaximumFlow': 'Largest cold flow',
  'unit.cleaning': 'Cleaning',
  'unit.cleaning.cost': 'Cost of a cleaning',
  'unit.cleaning.duration': 'Duration of a cleaning',
  'unit.cleaning.crewHours': 'Crew hours',
  'unit.cleaning.method': 'Method of cleaning',
  'unit.cleaning.inOutageOnly': 'When it can be cleaned',
  'unit.cleaning.downtimePerHour': 'Loss for each hour out of service',
  'unit.cleaning.isolation': 'Isolation',
  'unit.cleaning.compatibility': 'What materials and gaskets stand',
  'unit.checks': 'Which readings count',
  unit: 'Unit',
  version: 'Version',
  body: 'Document',
};

const STREAM_WORDS: Record<string, string> = {
  fluid: 'fluid',
  name: 'name',
  concentration: 'concentration',
  pressure: 'pressure',
  density: 'density',
  characterisationFactor: 'characterisation factor',
  specificHeat: 'specific heat',
  viscosity: 'viscosity',
  conductivity: 'conductivity',
  temperature: 'temperature',
  viscosities: 'viscosities',
  latentHeat: 'latent heat',
  saturationTemperature: 'saturation temperature',
  from: 'range of the polynomials',
  to: 'range of the polynomials',
};

/** A document's field as a person calls it: `unit.design.hotIn` → "Hot inlet temperature, design". */
export function fieldInWords(field: string): string {
  const limit = /^unit\.limits\[(\d+)\]/.exec(field);
  if (limit) return `Limit ${Number(limit[1]) + 1}`;
  const table = /^unit\.(hot|cold)\.properties\.table\[(\d+)\]\.?(\w*)/.exec(field);
  if (table)
    return `${sentence(table[1]!)} fluid, row ${Number(table[2]) + 1}, ${STREAM_WORDS[table[3]!] ?? 'table'}`;
  const stream = /^unit\.(hot|cold)\.(?:properties\.(?:polynomial\.)?)?(\w+)/.exec(field);
  if (stream) return `${sentence(stream[1]!)} stream, ${STREAM_WORDS[stream[2]!] ?? 'properties'}`;
  const nominal = /^unit\.sensors\.(\w+)\.nominal/.exec(field);
  if (nominal)
    return `${sentence((SENSOR_WORDS as Record<string, string>)[nominal[1]!] ?? 'flow')}, assumed without a meter`;
  const sensor = /^unit\.(design|sensors)\.(\w+)/.exec(field);
  const words = sensor === null ? undefined : (SENSOR_WORDS as Record<string, string>)[sensor[2]!];
  if (words !== undefined) return `${sentence(words)}, ${sensor![1] === 'design' ? 'design' : 'uncertainty'}`;
  const check = CHECK_FIELDS.find(({ name }) => field.startsWith(`unit.checks.${name}`));
  if (check !== undefined) return `Which readings count: ${check.label}`;
  return longestKnown(field) ?? field;
}

function longestKnown(field: string): string | null {
  for (let path = field; path !== ''; path = path.replace(/(\[\d+\]|\.?[^.[\]]+)$/, '')) {
    const words = WORDS[path];
    if (words !== undefined) return words;
  }
  return null;
}

function sentence(text: string): string {
  return text.replace(/^./, (letter) => letter.toUpperCase());
}

const NAMES: Record<string, string> = {
  hotIn: 'the hot inlet',
  hotOut: 'the hot outlet',
  coldIn: 'the cold inlet',
  coldOut: 'the cold outlet',
  hotShare: 'the hot film',
  wallShare: 'the wall',
  cleanU: 'the clean U',
};

/** A message of the contract, which calls fields by their names in files, in the words of the form. */
export function messageInWords(message: string): string {
  return message.replace(/\b(?:hot|cold|wall|clean)(?:In|Out|Share|U)\b/g, (name) => NAMES[name] ?? name);
}
