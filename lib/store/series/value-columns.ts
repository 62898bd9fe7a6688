import { SENSORS } from '@/lib/core/exchange/exchanger';
import { columnName } from './column-name';

/** Columns of the sensors' values, in the order of SENSORS. */
export const VALUE_COLUMNS = SENSORS.map(columnName);
