namespace Coldpeel.Storage.Shelf;

/// <summary>A thing on the shelf, as it is kept.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Kind">What it is: transfer, sheet, toner, blank, other.</param>
/// <param name="Name">Its name.</param>
/// <param name="Place">Where it lies.</param>
/// <param name="Unit">What is counted.</param>
/// <param name="Count">How many there are.</param>
/// <param name="Least">Fewer than this and it is time to order.</param>
/// <param name="BondedOn">The day it was bonded; null for what is not bonded.</param>
public sealed record StoredStock(
    int Id,
    string Kind,
    string Name,
    string Place,
    string Unit,
    decimal Count,
    decimal Least,
    DateOnly? BondedOn
)
{
    /// <summary>What an order's steps know it by; empty for what only hands move.</summary>
    public string Role { get; init; } = "";
}

/// <summary>A movement, as it is kept.</summary>
/// <param name="Number">Rising.</param>
/// <param name="At">When.</param>
/// <param name="Who">Who.</param>
/// <param name="By">How many came; below zero, how many went.</param>
/// <param name="Why">What for.</param>
public sealed record StoredMove(long Number, DateTimeOffset At, string Who, decimal By, string Why);
