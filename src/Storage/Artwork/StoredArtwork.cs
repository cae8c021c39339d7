namespace Coldpeel.Storage.Artwork;

/// <summary>An artwork file that orders have.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Hash">SHA-256 of its content.</param>
/// <param name="Name">Its name as it was brought last.</param>
/// <param name="Bytes">Its length.</param>
/// <param name="Last">When an order with it was kept last.</param>
/// <param name="Orders">How many orders have it.</param>
/// <param name="Latest">Its use in the order that was kept last.</param>
public sealed record StoredArtwork(
    int Id,
    string Hash,
    string Name,
    long Bytes,
    DateTimeOffset Last,
    int Orders,
    StoredArtworkUse Latest
);

/// <summary>A design of an order that is made of an artwork file.</summary>
/// <param name="Id">Its number, higher for an order that was kept later.</param>
/// <param name="Order">The order.</param>
/// <param name="Customer">Whose it is.</param>
/// <param name="Number">Which design of the order, from 1.</param>
/// <param name="Design">The design.</param>
/// <param name="WidthMm">Across.</param>
/// <param name="HeightMm">Down.</param>
/// <param name="Found">The worst that stands against it: 0 nothing, 1 a note, 2 a look, 3 a stop.</param>
/// <param name="Mends">How many mends are in it.</param>
/// <param name="Picture">The order's file that shows it.</param>
public sealed record StoredArtworkUse(
    int Id,
    string Order,
    string Customer,
    int Number,
    string Design,
    double WidthMm,
    double HeightMm,
    int Found,
    int Mends,
    string Picture
);

/// <summary>Where a list of artwork goes on.</summary>
/// <param name="LastMs">When the last one of the page before was used last, in milliseconds since 1970-01-01 UTC.</param>
/// <param name="Id">Its number.</param>
public sealed record ArtworkKey(long LastMs, int Id);
