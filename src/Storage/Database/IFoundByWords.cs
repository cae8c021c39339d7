namespace Coldpeel.Storage.Database;

/// <summary>A row that is found by words.</summary>
internal interface IFoundByWords
{
    /// <summary>Its number.</summary>
    int Id { get; }

    /// <summary>What it is found by, as <see cref="Database.Sought"/> writes it.</summary>
    string Sought { get; }
}
