using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Storage.Artwork;

namespace Coldpeel.Desk.Artwork;

/// <summary>How a design stands with what was found on it.</summary>
public enum ArtworkStand
{
    /// <summary>Nothing was found, or all of it was answered.</summary>
    Nothing,

    /// <summary>Something is good to know.</summary>
    Note,

    /// <summary>Something asks for a look before printing.</summary>
    Look,

    /// <summary>Something stands in the way.</summary>
    Stop,
}

/// <summary>A design of an order that is made of an artwork file.</summary>
/// <param name="Id">Its number, higher for an order that was kept later.</param>
/// <param name="Order">The order.</param>
/// <param name="Customer">Whose it is.</param>
/// <param name="Number">Which design of the order, from 1.</param>
/// <param name="Design">The design.</param>
/// <param name="WidthMm">Across.</param>
/// <param name="HeightMm">Down.</param>
/// <param name="Stand">The worst that stands against it.</param>
/// <param name="Mends">How many mends are in it.</param>
/// <param name="Picture">The order's file that shows it on its fabric's colour.</param>
public sealed record ArtworkUse(
    int Id,
    string Order,
    string Customer,
    int Number,
    string Design,
    double WidthMm,
    double HeightMm,
    ArtworkStand Stand,
    int Mends,
    string Picture
);

/// <summary>An artwork file that orders have.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Name">Its name as it was brought last.</param>
/// <param name="Bytes">Its length.</param>
/// <param name="Orders">How many orders have it.</param>
/// <param name="Latest">Its design in the order that was kept last.</param>
public sealed record ArtworkLine(int Id, string Name, long Bytes, int Orders, ArtworkUse Latest);

/// <summary>Lists the artwork of all orders, what was used last first: the same content once, however many orders have it.</summary>
public sealed class ListArtwork(OpenedWorkshop workshop)
{
    private const int PageLines = 50;

    /// <summary>One page of it, and where the next one begins; null when it is the last.</summary>
    /// <param name="words">Only what has these words in the names of its file, its designs or its customers.</param>
    /// <param name="after">From this key on; null from the first.</param>
    /// <param name="most">Lines of a page.</param>
    public (ImmutableArray<ArtworkLine> Lines, string? Next) Page(string words, string? after, int most = PageLines)
    {
        var found = workshop.Store.Artwork.Some(words, Key(after), most + 1);
        var shown = found.Take(most).ToArray();
        return (
            [.. shown.Select(Line)],
            found.Count > most
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $"{shown[^1].Last.ToUnixTimeMilliseconds()}-{shown[^1].Id}"
                )
                : null
        );
    }

    /// <summary>One artwork with a page of its designs, the order kept last first; null when there is none of that number.</summary>
    /// <param name="id">The artwork.</param>
    /// <param name="before">Only designs before this number; null from the last.</param>
    public (ArtworkLine Line, ImmutableArray<ArtworkUse> Uses, int? Next)? One(int id, int? before)
    {
        if (workshop.Store.Artwork.One(id) is not { } artwork)
        {
            return null;
        }

        var uses = workshop.Store.Artwork.Uses(id, before, PageLines + 1);
        return (
            Line(artwork),
            [.. uses.Take(PageLines).Select(Use)],
            uses.Count > PageLines ? uses[PageLines - 1].Id : null
        );
    }

    private static ArtworkLine Line(StoredArtwork a) => new(a.Id, a.Name, a.Bytes, a.Orders, Use(a.Latest));

    private static ArtworkUse Use(StoredArtworkUse u) =>
        new(
            u.Id,
            u.Order,
            u.Customer,
            u.Number,
            u.Design,
            u.WidthMm,
            u.HeightMm,
            (ArtworkStand)u.Found,
            u.Mends,
            u.Picture
        );

    // A key that nobody of us wrote begins at the first.
    private static ArtworkKey? Key(string? after) =>
        after?.Split('-') is [var ms, var id]
        && long.TryParse(ms, NumberStyles.None, CultureInfo.InvariantCulture, out var lastMs)
        && int.TryParse(id, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? new(lastMs, number)
            : null;
}
