export function Show() {
  return <p>…</p>;
}
