using Coldpeel.Craft.Press.Heat;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Workshop.Press;

/// <summary>What the heat model says of a recipe's press, for those who stand at it, and what that rests on.</summary>
public static class PressEvidence
{
    private const double LongestS = 300;

    /// <summary>One sentence; null where the library does not know the material.</summary>
    /// <param name="pressing">The steps and the material.</param>
    /// <param name="book">The workshop: what was measured at its presses.</param>
    public static Sentence? Of(Pressing pressing, WorkshopBook book)
    {
        ArgumentNullException.ThrowIfNull(pressing);
        ArgumentNullException.ThrowIfNull(book);
        var press = book.Presses.FirstOrDefault(p => p.Contacts is not null);
        if (
            pressing.Step(StepKind.Press) is not { } step
            || PressLayers.For(step, pressing.Material, LongestS, contacts: press?.Contacts) is not { } ask
        )
        {
            return null;
        }

        var window = HeatWindows.Find(ask, HeatSearch.Quick);
        var from = press is null ? (Sentence)$"contacts from tables" : $"contacts measured here, at {press.Id}";
        var bonds = window.ShortestS is { } shortest
            ? (Sentence)$"it bonds from about {shortest:0} s on"
            : $"it does not bond within {LongestS:0} s";
        var harms = window.LongestS is { } longest
            ? window.Harmed == PressLayers.Item
                ? (Sentence)$"the fabric is harmed after about {longest:0} s"
                : $"the {Words.Data(window.Harmed ?? "")} is harmed after about {longest:0} s"
            : $"nothing is harmed within {LongestS:0} s";
        return $"By the heat model at {step.Celsius} °C {bonds} and {harms} ({from}; glue {Words.Data(GlueLaws.NotCalibrated)}).";
    }
}
