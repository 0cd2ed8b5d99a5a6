/**
 * Wilson's score interval for a share, at 95 %.
 * Wilson EB. Probable inference, the law of succession, and statistical inference.
 * Journal of the American Statistical Association 1927;22(158):209-212.
 *
 * With p = held / of and z the 0.975 quantile of the normal distribution:
 * (p + z^2/2n -+ z sqrt(p(1-p)/n + z^2/4n^2)) / (1 + z^2/n)
 */
const Z = 1.959963984540054;

/**
 * @param {number} held marks gained, between 0 and `of`
 * @param {number} of marks that could be gained, above 0
 * @returns {[number, number]} lower and upper end, within 0 and 1
 */
export function wilson(held, of) {
  const share = held / of;
  const square = (Z * Z) / of;
  const middle = share + square / 2;
  const spread = Math.sqrt(square * (share * (1 - share) + square / 4));
  return [Math.max(0, (middle - spread) / (1 + square)), Math.min(1, (middle + spread) / (1 + square))];
}
