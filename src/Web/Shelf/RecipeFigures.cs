using Coldpeel.Desk.Shelf;
using Coldpeel.Web.Layout;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Web.Shelf;

/// <summary>The figures of a step in one line: "150 °C, 30 s, 40 kPa, matt release sheet".</summary>
internal static class RecipeFigures
{
    public static string Of(ProcessStep step) => Of(new StepFigures(step.Celsius, step.Seconds, step.KPa, step.Cover));

    public static string Of(StepFigures figures) =>
        string.Join(
            ", ",
            new[]
            {
                figures.Celsius is { } c ? $"{c} °C" : null,
                figures.Seconds is { } s ? $"{s} s" : null,
                figures.KPa is { } p ? $"{p} kPa" : null,
                figures.Cover is { } cover ? Say.Data(cover) : null,
            }.OfType<string>()
        );
}
