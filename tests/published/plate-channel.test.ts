import { describe } from 'vitest';
import { testChecks } from '../support/table-test';
import { plateChannelChecks } from './checks/plate-channel';

describe('channels of plate exchangers (Sinnott example 12.13, Kakaç & Liu example 10.1, from memory; a worksheet)', () => {
  testChecks(plateChannelChecks());
});
