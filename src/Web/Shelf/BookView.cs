using Coldpeel.Desk.Shelf;

namespace Coldpeel.Web.Shelf;

/// <summary>A form of the workshop file as a page shows it.</summary>
public sealed class BookView
{
    internal BookFields Fields { get; init; } = null!;

    /// <summary>What stood when it was opened.</summary>
    public required string Stand { get; init; }

    /// <summary>The change that somebody else made meanwhile; null for none.</summary>
    public BookVersion? Moved { get; init; }

    /// <summary>Whether something is wrong with it.</summary>
    public bool HasFaults { get; init; }

    /// <summary>What to know before it is kept.</summary>
    public IReadOnlyList<RecipeCaution> Cautions { get; init; } = [];

    /// <summary>Stands for what the cautions are of.</summary>
    public string Seen { get; init; } = "";

    /// <summary>The token that shows that our own page sent the form.</summary>
    public required string Token { get; init; }

    /// <summary>The name of its field.</summary>
    public required string TokenField { get; init; }
}
