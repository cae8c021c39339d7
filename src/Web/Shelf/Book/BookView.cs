using Coldpeel.Desk.Shelf;

namespace Coldpeel.Web.Shelf.Book;

/// <summary>A form of the workshop file as a page shows it.</summary>
public sealed record BookView
{
    internal BookFields Fields { get; init; } = null!;

    /// <summary>The page's heading.</summary>
    public string Title { get; init; } = "";

    /// <summary>What the form is for, in a line below it.</summary>
    public string Lead { get; init; } = "";

    /// <summary>The place of the app that it belongs to.</summary>
    public string Place { get; init; } = "";

    /// <summary>Where it is sent.</summary>
    public string Action { get; init; } = "";

    /// <summary>Where it leads back to, kept or not.</summary>
    public string Back { get; init; } = "";

    /// <summary>What is there.</summary>
    public string BackWords { get; init; } = "";

    /// <summary>What the button that keeps it says; null for the usual words.</summary>
    public string? KeepWords { get; init; }

    /// <summary>What stood when it was opened.</summary>
    public required string Stand { get; init; }

    /// <summary>The change that somebody else made meanwhile; null for none.</summary>
    public BookVersion? Moved { get; init; }

    /// <summary>Whether the form was opened for something else than what stands at its address now.</summary>
    public bool IsOther { get; init; }

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
