import { AppError } from '@/lib/contract/app-error';
import { publicOrigin } from './public-origin';
import { isRole, ROLES, type Role } from './rights';

/** By this name the sign-in library knows the one identity provider of an installation. */
export const PROVIDER_ID = 'oidc';

/** Where the provider sends people back to; registered there with the address of this server in front. */
export const CALLBACK_PATH = '/sign-in/provider/callback';

/** An identity provider of the plant, as the environment states it. */
export type IdentityProvider = {
  /** What the sign-in page calls it. */
  name: string;
  issuer: string;
  clientId: string;
  clientSecret: string;
  origin: string;
  /** Claim that holds the role; null: everybody begins with the same. */
  roleClaim: string | null;
  defaultRole: Role;
};

/**
 * The identity provider of this installation; null where CLEANBY_OIDC_ISSUER states none.
 *
 * @throws AppError 'invalid-input' naming the variable that is missing or wrong
 */
export function identityProvider(): IdentityProvider | null {
  const issuer = process.env.CLEANBY_OIDC_ISSUER ?? '';
  if (issuer === '') return null;
  const defaultRole = process.env.CLEANBY_OIDC_DEFAULT_ROLE ?? 'viewer';
  if (!isRole(defaultRole)) throw wrong('CLEANBY_OIDC_DEFAULT_ROLE', `state one of ${ROLES.join(', ')}`);
  const origin = publicOrigin()?.origin;
  if (origin === undefined) throw wrong('CLEANBY_ORIGIN', 'state where people reach this server');
  return {
    name: process.env.CLEANBY_OIDC_NAME ?? 'your organisation',
    issuer: issuerOf(issuer),
    clientId: required('CLEANBY_OIDC_CLIENT_ID'),
    clientSecret: required('CLEANBY_OIDC_CLIENT_SECRET'),
    origin,
    roleClaim: process.env.CLEANBY_OIDC_ROLE_CLAIM ?? null,
    defaultRole,
  };
}

/** Everything the provider says is believed because TLS says who it is; on this machine that is known without. */
function issuerOf(stated: string): string {
  const url = URL.canParse(stated) ? new URL(stated) : null;
  const isHere = url?.hostname === '127.0.0.1' || url?.hostname === 'localhost';
  if (url?.protocol === 'https:' || (url?.protocol === 'http:' && isHere)) return stated.replace(/\/$/, '');
  throw wrong('CLEANBY_OIDC_ISSUER', 'state an address that begins with https');
}

function required(name: string): string {
  const value = process.env[name] ?? '';
  if (value === '') throw wrong(name, 'state it as the provider gave it');
  return value;
}

function wrong(field: string, remedy: string): AppError {
  return new AppError('invalid-input', `The identity provider cannot be used: ${field} is missing or wrong`, [
    { field, message: remedy },
  ]);
}

/**
 * The role that a provider's claims give: of several the one that may do most. A claim that names none of ours gives the
 * default; null where no claim was agreed on, and roles are given here.
 */
export function roleOfClaims(
  { roleClaim, defaultRole }: Pick<IdentityProvider, 'roleClaim' | 'defaultRole'>,
  claims: Record<string, unknown>,
): Role | null {
  if (roleClaim === null) return null;
  const named = [claims[roleClaim]].flat().map((value) => `${value}`.toLowerCase());
  return ROLES.findLast((role) => named.includes(role)) ?? defaultRole;
}
