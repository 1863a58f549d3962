/** What no scan can show; always in reach of the finding. */
export function Cautions() {
  return (
    <details className="cautions">
      <summary>What a comparison cannot show</summary>
      <p>
        Scans never show legal authenticity, who held the wax, a date, the alloy, or that two things are one and the
        same. A faithful cast of a matrix can pass every test.
      </p>
      <p>
        Absence of a mark proves nothing where the wax is not filled, lost or not scanned. Grey on the plate means no
        measurable difference, nothing more.
      </p>
      <p>Translucent wax blurs a scan and can imitate wear. Finger marks may be those of a living handler.</p>
      <p>
        No contact, no moulding compound and no spray on historic wax: handling follows the conservator of the holding
        institution.
      </p>
    </details>
  );
}
