/** Unknown addresses under /api: a problem document, not a page. */
export { DELETE, GET, PATCH, POST, PUT } from '@/app/api/other-methods';
