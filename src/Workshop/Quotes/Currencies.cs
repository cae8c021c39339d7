using System.Collections.Frozen;

namespace Coldpeel.Workshop.Quotes;

/// <summary>Currencies and their minor units, by ISO 4217.</summary>
public static class Currencies
{
    // ISO 4217 list one, from memory but for BHD, USD and the two non-decimal ones (MGA, MRU), which count as 2.
    private static readonly FrozenDictionary<string, int> Digits = new Dictionary<string, int>
    {
        ["JPY"] = 0,
        ["KRW"] = 0,
        ["ISK"] = 0,
        ["CLP"] = 0,
        ["VND"] = 0,
        ["XAF"] = 0,
        ["XOF"] = 0,
        ["XPF"] = 0,
        ["PYG"] = 0,
        ["UGX"] = 0,
        ["RWF"] = 0,
        ["BHD"] = 3,
        ["KWD"] = 3,
        ["OMR"] = 3,
        ["JOD"] = 3,
        ["TND"] = 3,
        ["IQD"] = 3,
        ["LYD"] = 3,
        ["EUR"] = 2,
        ["USD"] = 2,
        ["GBP"] = 2,
        ["CHF"] = 2,
        ["SEK"] = 2,
        ["NOK"] = 2,
        ["DKK"] = 2,
        ["PLN"] = 2,
        ["CZK"] = 2,
        ["HUF"] = 2,
        ["RON"] = 2,
        ["BGN"] = 2,
        ["TRY"] = 2,
        ["UAH"] = 2,
        ["CAD"] = 2,
        ["AUD"] = 2,
        ["NZD"] = 2,
        ["MXN"] = 2,
        ["BRL"] = 2,
        ["ARS"] = 2,
        ["ZAR"] = 2,
        ["INR"] = 2,
        ["CNY"] = 2,
        ["HKD"] = 2,
        ["SGD"] = 2,
        ["TWD"] = 2,
        ["THB"] = 2,
        ["MYR"] = 2,
        ["PHP"] = 2,
        ["IDR"] = 2,
        ["ILS"] = 2,
        ["AED"] = 2,
        ["SAR"] = 2,
        ["QAR"] = 2,
        ["EGP"] = 2,
        ["MAD"] = 2,
        ["KES"] = 2,
        ["NGN"] = 2,
        ["GHS"] = 2,
        ["RSD"] = 2,
        ["MGA"] = 2,
        ["MRU"] = 2,
        ["COP"] = 2,
        ["PEN"] = 2,
    }.ToFrozenDictionary();

    /// <summary>Digits after the point, or null for a code we do not know.</summary>
    public static int? MinorUnits(string code) => Digits.TryGetValue(code ?? "", out var digits) ? digits : null;
}
