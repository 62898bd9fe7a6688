import type { FleetFile } from '@/lib/contract/fleet-file';
import { ferrowCoolingUnits } from './fleet/ferrow-point-cooling';
import { ferrowHeatUnits } from './fleet/ferrow-point-heat';
import { productUnits } from './fleet/ferrow-point-product';
import { kaldholmCoolingUnits } from './fleet/kaldholm-cooling';
import { districtHeatUnits } from './fleet/kaldholm-district-heat';
import { powerPlantUnits } from './fleet/kaldholm-power-plant';

/** A dairy on a mild coast that cools with sea and tower water. */
export const FERROW_POINT: FleetFile = {
  site: { name: 'Ferrow Point Dairy', timeZone: 'Europe/Lisbon', currency: 'EUR' },
  units: [...productUnits, ...ferrowHeatUnits, ...ferrowCoolingUnits],
};

/** A heat and power station on a cold, brackish sea, with the town's district heat. */
export const KALDHOLM: FleetFile = {
  site: { name: 'Kaldholm Heat and Power', timeZone: 'Europe/Helsinki', currency: 'EUR' },
  units: [...districtHeatUnits, ...kaldholmCoolingUnits, ...powerPlantUnits],
};

/** The demonstration fleet, as fleet files: both sites are invented. */
export const DEMO_FLEETS: FleetFile[] = [FERROW_POINT, KALDHOLM];
