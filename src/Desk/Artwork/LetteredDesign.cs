using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork;
using Coldpeel.Files.Artwork.Fonts;
using Coldpeel.Files.Artwork.Lettering;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Artwork;

/// <summary>From a text and a font to a design.</summary>
internal static class LetteredDesign
{
    /// <summary>Sets the text in type; one at a time.</summary>
    public static SetLettering Set(FontFace face, DesignRequest.Lettered asked, string text) =>
        LetteringSetter.Set(face, asked.Lettering, text);

    /// <summary>Makes one piece of what was set; letters that the font lacks and empty names are findings, and then there is no design.</summary>
    public static (Design? Design, ImmutableArray<Finding> Findings) Make(
        DesignRequest.Lettered asked,
        ProcessLimits limits,
        string piece,
        string text,
        SetLettering set,
        OneItem? item,
        WorkshopBook book
    )
    {
        var whom = item is null ? Sentence.Nothing : $" of {item.Group.What} {item.Number} ({item.Who})";
        if (string.IsNullOrWhiteSpace(text))
        {
            return (
                null,
                [
                    Stop(
                        "empty-text",
                        $"Design {asked.Id}{whom} has no text: fill in the roster, or take the placement off."
                    ),
                ]
            );
        }

        if (set.MissingLetters.Length > 0)
        {
            var letters = string.Join(", ", set.MissingLetters.Distinct().Select(l => $"“{l}”"));
            return (
                null,
                [
                    Stop(
                        "missing-letter",
                        $"The font {asked.Lettering.Font} has no {letters} for “{text.ReplaceLineEndings(" ")}”{whom}: name a font that has, or ask how it may be written."
                    ),
                ]
            );
        }

        if (SizeJudge.TooLarge(piece, set.WidthMm, set.HeightMm, book) is { } tooLarge)
        {
            return (null, [tooLarge with { Item = item?.Group.Id }]);
        }

        var plane = InkRaster.Fill(set.Path, set.WidthMm, set.HeightMm, book.PrinterDpi / Length.MillimetresPerInch);
        var design = DesignFrom.Plane(
            piece,
            set.WidthMm,
            set.HeightMm,
            plane,
            set.Path,
            limits,
            null,
            "lettering prints solid"
        ) with
        {
            Texts = [new(text, set.CapHeightMm)],
        };
        return (
            design,
            set.Note is null
                ? []
                :
                [
                    new Finding("lettering-fitted", Severity.Note, $"{asked.Id}{whom}: {new Part.Lowered(set.Note)}")
                    {
                        Design = piece,
                        Item = item?.Group.Id,
                    },
                ]
        );

        Finding Stop(string kind, Sentence say) =>
            new(kind, Severity.Stop, say) { Design = asked.Id, Item = item?.Group.Id };
    }
}
