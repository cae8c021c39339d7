using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Desk.Rooms;
using Coldpeel.Web.Layout;
using Coldpeel.Web.Words;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;

namespace Coldpeel.Web.Rooms;

/// <summary>The five questions as a form, and the form as answers.</summary>
public partial class QuestionsForm
{
    private const int LeastRows = 3;
    private const double MmPerInch = 25.4;

    // ISO 216; ANSI/ASME Y14.1 sizes A and B (from memory): 8.5 × 11 and 11 × 17 inches of 25.4 mm.
    private static readonly (string Key, (double W, double H)[] Sizes)[] Known =
    [
        ("a4-a3", [(210, 297), (297, 420)]),
        ("a4", [(210, 297)]),
        ("a3", [(297, 420)]),
        ("letter", [(215.9, 279.4)]),
        ("tabloid", [(279.4, 431.8)]),
    ];

    /// <summary>What holds now.</summary>
    [Parameter, EditorRequired]
    public WorkshopAnswers Answers { get; set; } = null!;

    /// <summary>Whether they are asked for the first time.</summary>
    [Parameter]
    public bool First { get; set; }

    /// <summary>Stands for what held when the form was opened.</summary>
    [Parameter]
    public string Stand { get; set; } = "";

    [Parameter, EditorRequired]
    public string Token { get; set; } = "";

    [Parameter, EditorRequired]
    public string TokenField { get; set; } = "";

    private bool Inches => Answers.Unit == LengthUnit.Inch;

    private string Unit => Inches ? "in" : "mm";

    private int Rows => Math.Clamp(Answers.Presses.Length + 1, LeastRows, WorkshopAnswers.Most);

    private string Chosen =>
        Known.FirstOrDefault(k => k.Sizes.SequenceEqual(Answers.Sheets.Select(s => (s.WidthMm, s.HeightMm)))).Key
        ?? (Answers.Sheets.Length == 1 ? "own" : "as");

    private IEnumerable<(string Key, string Word)> Kinds
    {
        get
        {
            yield return ("a4-a3", RoomWords.SheetBoth);
            yield return ("a4", RoomWords.SheetA4);
            yield return ("a3", RoomWords.SheetA3);
            yield return ("letter", RoomWords.SheetLetter);
            yield return ("tabloid", RoomWords.SheetTabloid);
            yield return ("own", RoomWords.SheetOwn);
            if (Chosen == "as")
            {
                var sizes = string.Join(", ", Answers.Sheets.Select(s => Say.Lengths(s.WidthMm, s.HeightMm)));
                yield return ("as", Say.With(RoomWords.SheetAs, sizes));
            }
        }
    }

    /// <summary>The form as answers; what is no figure becomes one that cannot be, and is refused with a sentence.</summary>
    internal static WorkshopAnswers Read(IFormCollection form, WorkshopAnswers now)
    {
        var presses = Enumerable
            .Range(0, WorkshopAnswers.Most)
            .Select(row =>
                (
                    Id: form[$"press-{row}"].ToString().Trim(),
                    Width: form[$"press-{row}-w"].ToString(),
                    Height: form[$"press-{row}-h"].ToString()
                )
            )
            .Where(p => p.Id.Length > 0)
            .Select(p => new PressAnswer(p.Id, Whole(form, p.Width), Whole(form, p.Height)))
            .ToImmutableArray();
        return new(
            presses,
            (int)Figure(form["dpi"]),
            Sheets(form, now),
            form["currency"].ToString().Trim().ToUpperInvariant(),
            decimal.TryParse(form["tax"], NumberStyles.Number, CultureInfo.InvariantCulture, out var tax) ? tax : -1,
            form["unit"] == "inch" ? LengthUnit.Inch : LengthUnit.Millimetre,
            form["language"].ToString() is { Length: > 0 } language ? language : null
        );
    }

    private static ImmutableArray<SheetAnswer> Sheets(IFormCollection form, WorkshopAnswers now)
    {
        var chosen = form["sheets"].ToString();
        var margin = Mm(form, form["margin"]);
        return chosen == "as" ? [.. now.Sheets.Select(s => s with { MarginMm = margin })]
            : Known.FirstOrDefault(k => k.Key == chosen).Sizes is { } sizes
                ? [.. sizes.Select(s => new SheetAnswer(s.W, s.H, margin))]
            : [new(Mm(form, form["sheet-w"]), Mm(form, form["sheet-h"]), margin)];
    }

    // A ten-thousandth of an inch goes to a hundredth of a millimetre and back without wear.
    private string? Length(double? mm) =>
        mm is { } of
            ? (Inches ? Math.Round(of / MmPerInch, 4) : of).ToString("0.####", CultureInfo.InvariantCulture)
            : null;

    private static double Mm(IFormCollection form, string? text) =>
        form["shown"].ToString() == "inch" ? Math.Round(Figure(text) * MmPerInch, 2) : Figure(text);

    private static int Whole(IFormCollection form, string? text) => (int)Math.Round(Mm(form, text));

    private static double Figure(string? text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var figure)
        && Math.Abs(figure) < 1e6
            ? figure
            : -1;
}
